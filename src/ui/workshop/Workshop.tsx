import './workshop.css';
import { useEffect, useState } from 'preact/hooks';
import type { Learner } from '../models/learner.ts';
import { Sheet } from '../parts/Sheet.tsx';
import type { Route } from '../route.ts';
import { Saying } from './fields/Saying.tsx';
import { PageFindings } from './findings/FindingsSummary.tsx';
import { FindingsProvider } from './findings/Provider.tsx';
import { createDraft, type DraftModel } from './model/draft.ts';
import { type Live, watchDraft } from './model/live.ts';
import { Outline } from './Outline.tsx';
import { PageOf } from './PageOf.tsx';
import { Home } from './pages/Home.tsx';
import { Doors } from './pages/Overview.tsx';
import { DraftBar, DraftTop, takeBack } from './parts/DraftBar.tsx';
import { pageTitle } from './titles.ts';

type At = Extract<Route, { at: 'workshop' }>;

/** Where decks are written, checked, tried, revised and handed over. */
export function Workshop(props: { readonly learner: Learner; readonly at: At }) {
  const { learner, at } = props;
  if (at.draft === undefined) return <Home learner={learner} />;
  return <Bench key={at.draft} learner={learner} id={at.draft} page={at.page ?? ''} />;
}

/** Pages with fields, of which the checker may say something. */
const FORMS = /^(head|sources|variants|crew|day|conditions|areas|paced|procedures\/|limits\/|scenarios\/)/;

/** Pages on which nothing is written, so that there is nothing to take back. */
const CHANGES_NOTHING = new Set(['try', 'print']);

/** A text box that is no field of the draft: what was typed there is the browser's to take back. */
const hasOwnUndo = (target: EventTarget | null): boolean =>
  (target instanceof HTMLTextAreaElement || (target instanceof HTMLInputElement && TEXTUAL.test(target.type))) &&
  target.dataset.path?.startsWith('/') !== true;
const TEXTUAL = /^(text|password|search|url|email|number|date)$/;

interface Open {
  readonly draft: DraftModel;
  readonly live: Live;
}

function Bench(props: { readonly learner: Learner; readonly id: string; readonly page: string }) {
  const { learner, id, page } = props;
  const [open, setOpen] = useState<Open | 'none' | null>(null);
  useEffect(() => {
    let left = false;
    let mine: Open | null = null;
    learner.store.drafts.get(id).then(
      (stored) => {
        if (left) return;
        if (stored === null) return setOpen('none');
        const draft = createDraft(learner, stored);
        mine = { draft, live: watchDraft(learner, draft) };
        setOpen(mine);
      },
      () => setOpen('none'),
    );
    return () => {
      left = true;
      mine?.live.dispose();
    };
  }, [learner, id]);
  useEffect(() => {
    if (open === null || open === 'none') return;
    const { draft } = open;
    // The browser's own undoing knows only the field that has the focus.
    const onKey = (event: KeyboardEvent) => {
      const key = event.key.toLowerCase();
      if (!(event.ctrlKey || event.metaKey) || event.altKey || (key !== 'z' && key !== 'y')) return;
      if (hasOwnUndo(event.target)) return;
      event.preventDefault();
      takeBack(draft, page, key === 'y' || event.shiftKey ? 'redo' : 'undo');
    };
    addEventListener('keydown', onKey);
    return () => removeEventListener('keydown', onKey);
  }, [open, page]);

  if (open === null) return <main class="sheet" aria-busy="true" />;
  if (open === 'none')
    return (
      <Sheet
        title="No such draft"
        bar={
          <div class="bar">
            <a class="button wide" href="#/workshop">
              All drafts
            </a>
          </div>
        }
      >
        <p>This draft is not on this device, or could not be read.</p>
      </Sheet>
    );
  const { draft, live } = open;
  return (
    <div class={`workshop ${page === '' ? '' : 'within'}`}>
      <div class="work">
        <Sheet
          page={page}
          title={pageTitle(draft.value.value, page)}
          top={<DraftTop draft={draft} page={page} />}
          bar={CHANGES_NOTHING.has(page.split('/')[0] ?? '') ? undefined : <DraftBar draft={draft} page={page} />}
        >
          <FindingsProvider draft={draft} live={live} page={page}>
            {FORMS.test(page) && <PageFindings draft={draft} live={live} page={page} />}
            <Saying page={page}>
              <PageOf learner={learner} draft={draft} live={live} page={page} />
            </Saying>
          </FindingsProvider>
        </Sheet>
      </div>
      <Outline draft={draft} live={live} page={page} />
      {page === '' && <Doors draft={draft} />}
    </div>
  );
}
