import type { ImportReport, Progress } from '../../model/ports.ts';
import { plural } from '../words.ts';
import type { Learner } from './learner.ts';
import { saidElsewhere } from './said-elsewhere.ts';

const DAY = 86_400_000;

/** @returns what to tell. @throws StoreProblem */
export const saveCopy = async (learner: Learner): Promise<readonly string[]> => {
  const { store, device } = learner;
  const text = await store.exportAll();
  const date = new Date(device.now()).toISOString().slice(0, 10);
  if (!(await device.save(`recency-copy-${date}.txt`, text))) return ['Nothing was saved.'];
  const entries = await store.log.count();
  await store.device.put('copied', { at: device.now(), entries });
  return [`Saved: ${plural(entries, 'entry', 'entries')} and every deck, in one file. Keep it somewhere else.`];
};

/** What came in by a union, for people. */
export const joinedWords = (
  report: Pick<ImportReport, 'added' | 'answers' | 'days' | 'doubled' | 'decks'>,
): readonly string[] => {
  const { added, answers, days, doubled, decks } = report;
  const others = added - answers;
  const came = [
    ...(answers > 0 ? [`${plural(answers, 'answer')} of ${plural(days, 'day')}`] : []),
    ...(others > 0
      ? [plural(others, answers > 0 ? 'other entry' : 'entry', answers > 0 ? 'other entries' : 'entries')]
      : []),
  ];
  return [
    `Taken in: ${came.length === 0 ? 'no new entry' : came.join(' and ')}; ${plural(decks, 'deck was', 'decks were')} new. ${plural(doubled, 'entry was', 'entries were')} here already. Nothing was lost.`,
  ];
};

/** @throws StoreProblem, or RangeError where the file is no copy at all */
export const takeCopy = async (learner: Learner, file: Blob, onProgress?: Progress): Promise<readonly string[]> => {
  const keepSaid = await saidElsewhere(learner);
  const report = await learner.store.importAll(await file.text(), onProgress);
  await learner.reload();
  const lines = [...joinedWords(report)];
  if (await keepSaid()) lines.push('What was not told on this device is as the copy has it: date, variants, versions.');
  if (report.clashes > 0)
    lines.push(
      `${plural(report.clashes, 'entry', 'entries')} came from a copied device under a number that was taken: both are kept.`,
    );
  if (report.unknown > 0)
    lines.push(`${plural(report.unknown, 'entry', 'entries')} of a newer version: kept, not counted.`);
  if (report.badLines > 0)
    lines.push(
      `${plural(report.badLines, 'line')} could not be read: ${report.bad
        .slice(0, 5)
        .map(({ line, why }) => `line ${line}: ${why}`)
        .join(' ')}`,
    );
  if (!report.complete) lines.push('The file ends too early: perhaps the copy was cut off. What it held was taken in.');
  return lines;
};

/** Device value: until when nobody is reminded, UTC ms. */
const LATER = 'copy-later';
const WEEK = 7;

export const remindLater = ({ store, device }: Pick<Learner, 'store' | 'device'>): Promise<void> =>
  store.device.put(LATER, device.now() + WEEK * DAY);

/** A sentence when it is time to save a copy; null when it is not. */
export const copyReminder = async (learner: Pick<Learner, 'store' | 'device'>): Promise<string | null> => {
  const { store, device } = learner;
  const [entries, copied, later, persisted, journal] = await Promise.all([
    store.log.count(),
    store.device.get('copied') as Promise<{ at: number; entries: number } | undefined>,
    store.device.get(LATER),
    store.persisted(),
    store.journal(),
  ]);
  const since = entries - (copied?.entries ?? 0);
  const safe = persisted && journal === 'opfs';
  const days = copied === undefined ? Number.POSITIVE_INFINITY : (device.now() - copied.at) / DAY;
  // A clock set back reminds at once rather than never.
  const left = typeof later === 'number' ? later - device.now() : 0;
  if (since < (safe ? 200 : 50) || days < WEEK || (left > 0 && left <= WEEK * DAY)) return null;
  return copied === undefined
    ? `${entries} entries are on this device alone.`
    : `${since} entries since you last saved a copy.`;
};
