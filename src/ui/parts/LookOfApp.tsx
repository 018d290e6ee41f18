import { useEffect, useLayoutEffect, useRef, useState } from 'preact/hooks';
import {
  type Appearance,
  appearance,
  setAppearance,
  setTextSize,
  type TextSize,
  textSize,
} from '../models/appearance.ts';
import type { Learner } from '../models/learner.ts';
import { buzz, buzzing, loadTouch, setBuzzing } from '../models/touch.ts';
import { Fold } from './Later.tsx';

const LOOKS: readonly (readonly [Appearance, string])[] = [
  ['device', 'As the device'],
  ['light', 'Light'],
  ['dark', 'Dark'],
];
const SIZES: readonly (readonly [TextSize, string])[] = [
  ['device', 'As the device'],
  ['larger', 'Larger'],
  ['largest', 'Largest'],
];

const wordsOf = <T extends string>(of: readonly (readonly [T, string])[], value: T): string =>
  (of.find(([one]) => one === value)?.[1] ?? '').toLowerCase();

/** Light or dark, how large the letters are, and whether a verdict is felt. */
export function LookOfApp(props: { readonly learner: Learner }) {
  const { store, device } = props.learner;
  useEffect(() => void loadTouch(store), [store]);
  const [look, size] = [wordsOf(LOOKS, appearance.value), wordsOf(SIZES, textSize.value)];
  return (
    <Fold title="Appearance and letters" said={look === size ? look : `colours ${look}, letters ${size}`}>
      {() => (
        <>
          <OneOf
            title="Appearance"
            name="appearance"
            of={LOOKS}
            value={appearance.value}
            onChosen={(chosen) => setAppearance(store, chosen)}
          />
          <Letters learner={props.learner} />
          {device.vibrate !== null && (
            <label class="pick">
              <input
                type="checkbox"
                checked={buzzing.value}
                onChange={(event) => {
                  setBuzzing(store, event.currentTarget.checked);
                  buzz(device, true);
                }}
              />
              <span>
                Buzz at a verdict
                <br />
                <span class="small soft">once when all was right, twice when not</span>
              </span>
            </label>
          )}
        </>
      )}
    </Fold>
  );
}

/** All of the page grows or shrinks: what was tapped stays under the finger. */
function Letters(props: { readonly learner: Learner }) {
  const tapped = useRef<{ readonly on: HTMLElement; readonly top: number } | null>(null);
  /** px above the choice, where the page cannot be scrolled so far. */
  const [room, setRoom] = useState(0);
  const size = textSize.value;
  useLayoutEffect(() => {
    if (tapped.current === null) return;
    const { on, top } = tapped.current;
    const moved = () => on.getBoundingClientRect().top - top;
    scrollBy({ top: moved(), behavior: 'instant' });
    const missing = -moved();
    if (Math.abs(missing) >= 1) setRoom((before) => Math.max(0, before + missing));
    else tapped.current = null;
  }, [size, room]);
  return (
    <div style={{ paddingTop: `${room}px` }}>
      <OneOf
        title="Letters"
        name="letters"
        of={SIZES}
        value={size}
        onChosen={(chosen, on) => {
          tapped.current = { on, top: on.getBoundingClientRect().top };
          setTextSize(props.learner.store, chosen);
        }}
      />
    </div>
  );
}

/** One of several ways of the app to be, told apart by words. */
function OneOf<T extends string>(props: {
  readonly title: string;
  readonly name: string;
  readonly of: readonly (readonly [T, string])[];
  readonly value: T;
  readonly onChosen: (value: T, on: HTMLElement) => void;
}) {
  return (
    <fieldset>
      <legend>
        <h3>{props.title}</h3>
      </legend>
      {props.of.map(([value, label]) => (
        <label class="pick" key={value}>
          <input
            type="radio"
            name={props.name}
            checked={props.value === value}
            onChange={(event) => props.onChosen(value, event.currentTarget)}
          />
          {label}
        </label>
      ))}
    </fieldset>
  );
}
