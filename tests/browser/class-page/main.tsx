/** The class table on a page of its own, with a real database; reports are plain JSON here. */
import '../../../src/ui/base.css';
import '../../../src/ui/screens.css';
import { signal } from '@preact/signals';
import { render } from 'preact';
import { openClassStore } from '../../../src/class/store.ts';
import { writeRows } from '../../../src/exchange/rows-out.ts';
import type { StoredDeck, StoredDraft } from '../../../src/model/ports.ts';
import { asProblem } from '../../../src/store/problem.ts';
import { ClassScreen } from '../../../src/ui/class/ClassScreen.tsx';
import type { Learner } from '../../../src/ui/models/learner.ts';
import { followAddress, route } from '../../../src/ui/route.ts';
import { openPlain } from '../../helpers/plain-report.ts';

const saved: { name: string; text: string }[] = [];
const decks = signal<readonly StoredDeck[]>([]);
let drafts: readonly StoredDraft[] = [];
let now = Date.now();

const learner = {
  decks,
  store: { drafts: { list: async () => drafts }, device: { get: async () => undefined } },
  device: {
    now: () => now,
    off: () => 0,
    elapsed: () => performance.now(),
    writeRows: async (rows: readonly (readonly string[])[]) => writeRows(rows),
    save: async (name: string, text: string) => {
      saved.push({ name, text });
      return true;
    },
    classDoor: async () => ({
      store: () => openClassStore({ problem: asProblem }),
      open: openPlain,
      letters: (key: string) => `${key.slice(-4).toUpperCase().padEnd(4, 'A')} EFGH IJKL MNOP`,
      home: 'https://recency.example/',
    }),
  },
} as never as Learner;

followAddress();

function Page() {
  const at = route.value;
  return (
    <div class="app">{at.at === 'class' ? <ClassScreen learner={learner} of={at.of} /> : <main>{at.at}</main>}</div>
  );
}

const shown = {
  saved,
  begin: (given: { readonly decks: readonly StoredDeck[]; readonly drafts: readonly StoredDraft[]; now: number }) => {
    decks.value = given.decks;
    drafts = given.drafts;
    now = given.now;
    render(<Page />, document.getElementById('app') as HTMLElement);
  },
};
export type ClassPage = typeof shown;
Object.assign(window, { classPage: shown });
