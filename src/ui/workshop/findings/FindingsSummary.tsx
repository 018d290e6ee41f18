import { useContext } from 'preact/hooks';
import type { Finding } from '../../../deck/findings.ts';
import { go } from '../../route.ts';
import { plural } from '../../words.ts';
import type { DraftModel } from '../model/draft.ts';
import type { Live, LiveFindings } from '../model/live.ts';
import { pageTitle } from '../titles.ts';
import { focusField } from './focus.ts';
import { fieldOf, pageOf } from './places.ts';
import { QuietContext } from './quiet.ts';
import { listWords } from './words.ts';

/** In the order of the contents, the deck as a whole first. */
const SECTIONS = [
  '',
  'head',
  'sources',
  'variants',
  'crew',
  'day',
  'conditions',
  'areas',
  'paced',
  'procedures',
  'limits',
  'scenarios',
];
const placeIn = (page: string): number => {
  const [section = '', index = '0'] = page.split('/');
  return 1e6 * SECTIONS.indexOf(section) + Number(index);
};

const MARKS = { error: 'bad', warning: 'warn', hint: '' } as const;
const WORDS = { error: 'Must be mended', warning: 'Should be looked at', hint: 'Hint' } as const;

/** "2 to mend, 1 to look at, 3 hints"; '' where there is nothing. */
const countWords = (findings: readonly Finding[]): string => {
  const count = (severity: Finding['severity']): number => findings.filter((f) => f.severity === severity).length;
  const [errors, warnings, hints] = [count('error'), count('warning'), count('hint')];
  return [
    errors > 0 ? `${errors} to mend` : '',
    warnings > 0 ? `${warnings} to look at` : '',
    hints > 0 ? plural(hints, 'hint') : '',
  ]
    .filter((one) => one !== '')
    .join(', ');
};

const stateWords = ({ findings, checking, failed }: LiveFindings): string => {
  if (failed) return 'The checker could not be loaded. What is typed is kept; load the app again to have it checked.';
  const counted = countWords(findings);
  if (checking) return counted === '' ? 'Being checked …' : `${counted}; still being checked …`;
  return counted === '' ? 'Nothing to mend.' : `${counted}.`;
};

interface Props {
  readonly draft: DraftModel;
  readonly live: Live;
}

/** What the checker says of the whole draft, thing by thing; each leads to its field. */
export function FindingsSummary({ draft, live }: Props) {
  const found = live.found.value;
  const value = draft.value.value;
  const pages = new Map<string, Finding[]>();
  for (const one of found.findings) {
    const page = pageOf(fieldOf(one));
    pages.set(page, [...(pages.get(page) ?? []), one]);
  }
  return (
    <section class="stack" aria-label="What the checker says">
      <h2>Checked</h2>
      <p role="status">{stateWords(found)}</p>
      {[...pages]
        .sort(([a], [b]) => placeIn(a) - placeIn(b))
        .map(([page, findings]) => (
          <section key={page} class="stack">
            <h3>{page === '' ? 'The deck as a whole' : pageTitle(value, page)}</h3>
            <FindingList draft={draft} findings={findings.filter(({ severity }) => severity !== 'hint')} />
            <Hints draft={draft} findings={findings.filter(({ severity }) => severity === 'hint')} />
          </section>
        ))}
    </section>
  );
}

/**
 * What is said of one page of the draft, above its fields. A line that is always there and unfolds only when pressed:
 * what comes a moment after the page must not move it away under a finger.
 */
export function PageFindings(props: Pick<Props, 'draft' | 'live'> & { readonly page: string }) {
  const { page, ...rest } = props;
  const quiet = useContext(QuietContext);
  const findings = props.live.found.value.findings.filter(
    (one) => pageOf(fieldOf(one)) === page && quiet?.is(one) !== true,
  );
  return (
    <details class="folded">
      <summary>{findings.length === 0 ? 'Nothing to mend here' : countWords(findings)}</summary>
      {findings.length === 0 ? (
        <p class="soft">What the checker says of this page stands here, and at its fields.</p>
      ) : (
        <FindingList {...rest} findings={findings} />
      )}
    </details>
  );
}

/** Many, and none of them stops anything: folded, but counted. */
function Hints(props: { readonly draft: DraftModel; readonly findings: readonly Finding[] }) {
  if (props.findings.length === 0) return null;
  return (
    <details class="folded">
      <summary>{plural(props.findings.length, 'hint')}</summary>
      <FindingList {...props} />
    </details>
  );
}

function FindingList(props: { readonly draft: DraftModel; readonly findings: readonly Finding[] }) {
  const { draft, findings } = props;
  const quiet = useContext(QuietContext);
  if (findings.length === 0) return null;
  const doc = draft.value.peek();
  return (
    <ul class="lines">
      {findings.map((one) => {
        const place = fieldOf(one);
        const page = pageOf(place);
        return (
          <li key={`${one.code} ${one.path} ${listWords(one, doc)}`} class={`note ${MARKS[one.severity]}`}>
            <a
              class="deck-link"
              href={`#/workshop/${draft.id}${page === '' ? '' : `/${page}`}`}
              onClick={(event) => {
                event.preventDefault();
                quiet?.wake(page);
                go({ at: 'workshop', draft: draft.id, ...(page !== '' && { page }) });
                focusField(place);
              }}
            >
              {WORDS[one.severity]}: {listWords(one, doc)}
            </a>
          </li>
        );
      })}
    </ul>
  );
}
