import { type Change, parted } from '../../../draft/change.ts';
import type { Json } from '../../../lib/canonical-json.ts';
import { useDraft, useOf } from '../fields/editing.ts';
import { focusAt } from '../fields/focus.ts';
import { eventBegun, isBegun, windBegun, windDrawn, windMissing } from './beginnings.ts';

const WAYS: readonly (readonly [label: string, begin: (doc: Json, path: string) => Change[]])[] = [
  ['Begin with wind and runway', windBegun],
  ['Begin with an event', eventBegun],
];

/** Ways to begin an empty scenario. @param props.path of the scenario */
export function Beginnings({ path }: { readonly path: string }) {
  const draft = useDraft();
  const begun = useOf((one) => isBegun(one.value.value, path), path);
  if (begun) return null;
  return (
    <div class="row">
      {WAYS.map(([label, begin]) => (
        <button
          key={label}
          type="button"
          onClick={() => {
            draft.change(label, begin(draft.value.peek(), path));
            focusAt(`${path}/situation`);
          }}
        >
          {label}
        </button>
      ))}
    </div>
  );
}

/** Draws what the picture shows. @param props.path of the field of the picture */
export function PictureAid({ path }: { readonly path: string }) {
  const draft = useDraft();
  const { parent } = parted(path);
  const missing = useOf((one) => windMissing(one.value.value, parent), path);
  if (!missing) return null;
  const draw = () => {
    draft.change('Draw runway and wind', windDrawn(draft.value.peek(), parent));
    focusAt(path);
  };
  return (
    <div class="row">
      <button type="button" onClick={draw}>
        Draw runway and wind
      </button>
    </div>
  );
}
