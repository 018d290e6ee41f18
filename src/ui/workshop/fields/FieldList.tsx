import { useContext, useMemo, useRef } from 'preact/hooks';
import { isMembers } from '../../../lib/json.ts';
import { afterPress } from './after-press.ts';
import { below, FindingsContext, useDraft, useOf } from './editing.ts';
import { Field } from './Field.tsx';
import { AddButton } from './Many.tsx';
import { idOf, isNameless, nameAfterWords } from './naming.ts';
import { Odd } from './Odd.tsx';
import type { OnWords } from './Plain.tsx';
import type { Fields, Kind, Spec } from './spec.ts';

/** Come to be by a button of their own. */
const ADDED: ReadonlySet<Kind['is']> = new Set(['part', 'list', 'things', 'record', 'rows', 'strangers']);

const addWords = ({ kind, label }: Spec): string => ('add' in kind ? kind.add : label);

interface Shown {
  readonly main: readonly string[];
  readonly more: readonly string[];
  /** Not there, and added by a button. */
  readonly adds: readonly string[];
  readonly moreAdds: readonly string[];
  readonly unknown: readonly string[];
  /** Is something written under "More"? */
  readonly filled: boolean;
}

const shownOf = (
  fields: Fields,
  doc: import('../../../lib/canonical-json.ts').Json,
  path: string,
  value: unknown,
): Shown => {
  const there = isMembers(value as never) ? (value as { readonly [key: string]: never }) : {};
  const [main, more, adds, moreAdds]: [string[], string[], string[], string[]] = [[], [], [], []];
  let filled = false;
  for (const [key, spec] of Object.entries(fields)) {
    if (spec.kind.is === 'elsewhere') continue;
    const has = there[key] !== undefined;
    if (!has && spec.when !== undefined && !spec.when({ doc, path, value: there })) continue;
    const added = !has && ADDED.has(spec.kind.is);
    if (spec.more !== true) (added ? adds : main).push(key);
    else {
      (added ? moreAdds : more).push(key);
      if (has) filled = true;
    }
  }
  return { main, more, adds, moreAdds, unknown: Object.keys(there).filter((key) => fields[key] === undefined), filled };
};

/** All fields of one object: what matters first, the rest under "More". */
export function FieldList(props: { readonly fields: Fields; readonly path: string; readonly more?: string }) {
  const { fields, path, more = 'More' } = props;
  const draft = useDraft();
  const text = useOf((one) => JSON.stringify(shownOf(fields, one.value.value, path, one.at(path))), path);
  const shown = useMemo(() => JSON.parse(text) as Shown, [text]);
  const sort = useOf((one) => {
    const value = one.at(path);
    return isMembers(value) ? 'right' : value === undefined ? 'gone' : 'odd';
  }, path);
  const id = idOf(fields);
  const nameless = useRef(false);
  const onWords: OnWords = (when) => {
    if (id === null) return;
    if (when === 'begin') nameless.current ||= isNameless(draft, path, id);
    else if (nameless.current) {
      nameless.current = false;
      afterPress(() => nameAfterWords(draft, path, id));
    }
  };
  const list = (keys: readonly string[]) =>
    keys.map((key) => (
      <Field
        key={key}
        spec={fields[key] as Spec}
        path={below(path, key)}
        {...(id?.words.includes(key) && { onWords })}
      />
    ));
  const adders = (keys: readonly string[]) =>
    keys.length > 0 && (
      <div class="row">
        {keys.map((key) => {
          const spec = fields[key] as Spec;
          return <AddButton key={key} path={below(path, key)} kind={spec.kind} label={addWords(spec)} />;
        })}
      </div>
    );
  if (sort === 'gone') return <p>This is not in the draft any more.</p>;
  if (sort === 'odd') return <Odd path={path} said="This is not written as it must be" />;
  return (
    <>
      <div class="fields">{list(shown.main)}</div>
      {adders(shown.adds)}
      {shown.unknown.map((key) => (
        <Odd key={key} path={below(path, key)} said={`${key} is not known here`} />
      ))}
      {shown.more.length + shown.moreAdds.length > 0 && (
        <More words={more} paths={shown.more.map((key) => below(path, key))} filled={shown.filled}>
          <div class="fields">{list(shown.more)}</div>
          {adders(shown.moreAdds)}
        </More>
      )}
    </>
  );
}

function More(props: {
  readonly words: string;
  readonly paths: readonly string[];
  readonly filled: boolean;
  readonly children: preact.ComponentChildren;
}) {
  const { words, paths, filled, children } = props;
  const findings = useContext(FindingsContext);
  // Once open it is the author's to fold: it must not close over what is being mended.
  const open = useRef(filled);
  if (paths.some((path) => findings.within(path))) open.current = true;
  return (
    <details class="more" open={open.current}>
      <summary>{words}</summary>
      <div class="stack">{children}</div>
    </details>
  );
}
