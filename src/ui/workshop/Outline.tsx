import { blankLimit, blankProcedure, blankScenario, lengthAt } from '../../draft/blank.ts';
import { insert, put, valueAt } from '../../draft/change.ts';
import type { Json } from '../../lib/canonical-json.ts';
import type { DraftModel } from './model/draft.ts';
import type { Live } from './model/live.ts';
import { openField } from './place.ts';
import { thingTitle } from './titles.ts';

const PARTS = [
  { page: 'head', words: 'The deck itself' },
  { page: 'sources', words: 'Sources', list: '/sources' },
  { page: 'variants', words: 'Variants', list: '/variants' },
  { page: 'crew', words: 'Crew', list: '/crew' },
  { page: 'day', words: 'Values of the day', list: '/day' },
  { page: 'conditions', words: 'Conditions', list: '/conditions' },
  { page: 'areas', words: 'Plan of the flight deck', list: '/areas' },
  { page: 'paced', words: 'Paced runs', list: '/paced' },
] as const;

const THINGS = [
  { section: 'procedures', words: 'Procedures', add: 'Add a procedure', blank: blankProcedure },
  { section: 'limits', words: 'Limits', add: 'Add a limit', blank: blankLimit },
  { section: 'scenarios', words: 'Scenarios', add: 'Add a scenario', blank: blankScenario },
] as const;

/** What the draft holds, as a page of contents. */
export function Outline(props: { readonly draft: DraftModel; readonly live: Live; readonly page: string }) {
  const { draft, live } = props;
  const value = draft.value.value;
  const found = live.found.value;
  const link = (page: string) => `#/workshop/${draft.id}/${page}`;
  const here = (page: string) => (page === props.page ? { 'aria-current': 'page' as const } : {});
  const mend = (path: string) => {
    const count = (severity: 'error' | 'warning') =>
      found.findings.filter(
        (one) => one.severity === severity && (one.path === path || one.path.startsWith(`${path}/`)),
      ).length;
    const [errors, warnings] = [count('error'), count('warning')];
    if (errors + warnings === 0) return null;
    return <span class="mark">{errors > 0 ? `${errors} to mend` : `${warnings} to look at`}</span>;
  };
  const add = (section: string, blank: (doc: Json) => Json, label: string) => {
    const list = `/${section}`;
    const index = lengthAt(value, list);
    const there = Array.isArray(valueAt(value, list));
    draft.change(label, there ? [insert(list, index, blank(value))] : [put(value, list, [blank(value)])]);
    openField(draft.id, `/${section}/${index}`);
  };
  return (
    <nav class="outline" aria-label="Contents of the deck">
      <ul class="lines">
        {PARTS.map((part) => (
          <li key={part.page}>
            <a class="deck-link" href={link(part.page)} {...here(part.page)}>
              {part.words}
              {'list' in part && lengthAt(value, part.list) > 0 && ` (${lengthAt(value, part.list)})`}
            </a>
            {'list' in part && mend(part.list)}
          </li>
        ))}
      </ul>
      {THINGS.map(({ section, words, add: addWords, blank }) => {
        const list = valueAt(value, `/${section}`);
        return (
          <section key={section} class="stack">
            <h2>{words}</h2>
            <ul class="lines">
              {(Array.isArray(list) ? (list as readonly Json[]) : []).map((thing, i) => {
                const page = `${section}/${i}`;
                return (
                  <li key={String(valueAt(thing, '/id') ?? i)}>
                    <a class="deck-link" href={link(page)} {...here(page)}>
                      {thingTitle(thing)}
                    </a>
                    {mend(`/${page}`)}
                  </li>
                );
              })}
            </ul>
            <div class="row">
              <button type="button" data-add={`/${section}`} onClick={() => add(section, blank, addWords)}>
                {addWords}
              </button>
              {section === 'procedures' && (
                <a class="button" href={link('paste')}>
                  From a list
                </a>
              )}
              {section === 'limits' && (
                <a class="button" href={link('limits')}>
                  Several limits
                </a>
              )}
            </div>
          </section>
        );
      })}
    </nav>
  );
}
