import { compareDecks } from '../deck/compare/compare.ts';
import { proposeVersion } from '../deck/compare/rise.ts';
import type { Comparison, Difference } from '../deck/compare/types.ts';
import { weightiestFirst } from '../deck/compare/weight.ts';
import { readDeck } from '../deck/read.ts';
import type { Deck } from '../model/deck.ts';
import type { Machine } from './run.ts';

const GROUPS: readonly (readonly [string, readonly Difference['kind'][]])[] = [
  ['Answers changed', ['answer']],
  ['Same answer, other words', ['same-answer']],
  ['Added', ['added']],
  ['Removed', ['removed']],
  ['Words changed', ['words']],
  ['Of the deck itself', ['head']],
];

/**
 * What changed from one version of a deck to another, and whether the version says so.
 * @returns 0 where it does, 1 where it must rise further, 2 where a file is no deck
 */
export function compare(texts: readonly (readonly [string, string])[], json: boolean, machine: Machine): number {
  const decks: Deck[] = [];
  for (const [file, text] of texts) {
    const { deck, findings } = readDeck(text);
    if (!deck) {
      machine.err(`${file} cannot be compared: it has ${findings.length} errors. Run check.`);
      return 2;
    }
    decks.push(deck);
  }
  const [before, after] = decks as [Deck, Deck];
  const comparison = compareDecks(before, after);
  const version = proposeVersion(before.version, after.version, comparison);
  if (json) machine.out(JSON.stringify({ ...comparison, version }, null, 2));
  else {
    machine.out(textOf(comparison).join('\n'));
    machine.out(`Version: ${before.version} → ${after.version}. ${version.problem ?? 'It says what changed.'}`);
  }
  return version.problem === null ? 0 : 1;
}

function textOf({ differences, same, whole }: Comparison): string[] {
  const lines = GROUPS.flatMap(([title, kinds]) => {
    const of = weightiestFirst(differences.filter((d) => kinds.includes(d.kind)));
    return of.length === 0 ? [] : [`${title}: ${of.length}`, ...of.flatMap(linesOf), ''];
  });
  if (!whole) lines.push('There are more combinations of variants than are compared: some were left out.');
  return [...lines, `${same} things to recall are the same.`];
}

function linesOf(d: Difference): string[] {
  const about = [d.thing, d.what].filter((x) => x !== '').join(': ');
  const place = d.path === '' ? '' : ` (${d.path}${d.gone ? ', before' : ''})`;
  const head = `  ${d.critical ? 'CRITICAL ' : ''}${about}${d.variants === '' ? '' : ` [${d.variants}]`}${place}`;
  return [
    head,
    ...(d.old === '' ? [] : [`    - ${d.old}`]),
    ...(d.now === '' ? [] : [`    + ${d.now}`]),
    ...(d.because === undefined ? [] : [`    starts afresh because of ${d.because}`]),
  ];
}
