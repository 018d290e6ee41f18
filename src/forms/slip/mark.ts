import { foldText } from '../../lib/fold-text.ts';
import type { ChipFinding, Fault, Marked, SlipDetail, SlipGiven, SlipShown } from '../../model/form.ts';
import type { ItemKey, Mark } from '../../model/item.ts';
import { caseWords } from '../../subjects/limit/words.ts';
import type { Resolved, RunStep } from '../../subjects/resolved.ts';
import type { Question } from '../contract.ts';
import { limitIn } from '../look-up.ts';
import { askedIn } from '../run/draw.ts';
import { crewLabel, fillerFor } from '../run/extras.ts';
import { findingsOf } from '../run/finding.ts';
import { guessOf, judge } from './judge.ts';
import { isInserted, windowIn } from './plans.ts';
import { variantWords } from './strange.ts';
import type { Window } from './window.ts';

/**
 * Marks the lines at which the learner would speak up. An item is right where one of its fault's lines was named, and
 * wrong otherwise; all are wrong where so many lines were named that finding is no art (judge.ts). `g` is the chance
 * that as many lines named blindly do as well: of a faultless answer the whole, else the share found.
 * @returns no marks where the deck no longer holds what was asked
 */
export function markSlip(resolved: Resolved, question: Question, shown: SlipShown, given: SlipGiven | null): Marked {
  const asked = askedIn(resolved, question.variant, question.about);
  const { faults, lines } = shown;
  const held = (fault: Fault): boolean =>
    resolved.items.has(fault.item) && asked?.part.some((i) => stepAt(i) === fault.step) === true;
  const stepAt = (i: number): string | undefined => asked?.situation.steps[i]?.step.id;
  if (!asked || faults.length === 0 || !faults.every(held)) return { marks: {}, g: 0, flawed: true, detail: nothing };
  const window = windowIn(resolved, asked);

  const ids = lines.map(({ id }) => id);
  const named = new Set((given?.lines ?? []).filter((id) => ids.includes(id)));
  const { found, accused, counts } = judge(
    named,
    faults.map((fault) => fault.lines),
  );
  const marks: Record<ItemKey, Mark> = {};
  faults.forEach(({ item }, i) => {
    marks[item] = given === null ? 'told' : counts && found[i] ? 'right' : 'wrong';
  });
  const flawed = accused > 0 || found.includes(false);
  const { share, faultless } = guessOf(
    lines.length,
    faults.map((fault) => fault.lines.map((id) => ids.indexOf(id))),
    given === null ? faults.length : named.size,
  );

  const faultOf = (id: string): number => faults.findIndex((fault) => fault.lines.includes(id));
  const note = noteIn(window, shown);
  const detail: SlipDetail = {
    form: 'slip',
    lines: lines.map((line) => {
      const i = faultOf(line.id);
      const fault = faults[i];
      if (fault === undefined) return { ...line, state: named.has(line.id) ? 'accused' : 'right' };
      if (!isTold(fault, line.id, named)) return { ...line, state: 'right' };
      return { ...line, state: found[i] ? 'found' : 'overlooked', note: note(fault, line.id) };
    }),
    run: runOf(
      window,
      shown,
      faults.filter((_, i) => !found[i]),
    ),
    ...(!counts && { tooMany: true }),
  };
  return { marks, g: flawed || given === null ? share : faultless, flawed, detail };
}

/**
 * Is a fault told at one of its lines? Of two exchanged at both. What is left out is told where it was named, or else at
 * the first line that waits for it: it is one fault, though any of them would have done.
 */
function isTold({ kind, lines }: Fault, line: string, named: ReadonlySet<string>): boolean {
  if (kind !== 'missing') return true;
  return lines.some((id) => named.has(id)) ? named.has(line) : line === lines[0];
}

/** What is wrong at a line of a fault, and what is right there. */
function noteIn(window: Window, shown: SlipShown): (fault: Fault, line: string) => string {
  const { resolved, asked, steps } = window;
  const { view, p } = asked;
  const fill = fillerFor(resolved, shown.drawn);
  const quoted = (text: string | undefined): string => `“${(text ?? '').replace(/[“”]/g, '')}”`;
  const textOf = (id: string | undefined): string | undefined => shown.lines.find((line) => line.id === id)?.text;
  return ({ kind, lines, step: id, item, of }, line) => {
    const { step, text } = steps.find((one) => one.step.id === id) as RunStep;
    switch (kind) {
      case 'swapped': {
        const [first, second] = lines;
        return line === first
          ? `Comes too early: after ${quoted(textOf(second))}`
          : `Comes too late: before ${quoted(textOf(first))}`;
      }
      case 'missing':
        return `Comes too early: after ${quoted(fill(text))}, which is left out`;
      case 'stranger': {
        const stranger = p.strangers[Number(of?.slice('stranger-'.length))];
        const isThat = stranger !== undefined && foldText(fill(stranger.text)) === foldText(textOf(line) ?? '');
        return isThat && stranger.note !== undefined ? `Does not belong: ${fill(stranger.note)}` : 'Does not belong';
      }
      case 'variant': {
        const stranger = p.strangers[Number(of?.slice('stranger-'.length))];
        return variantWords(resolved, view, p.procedure.steps, stranger?.text ?? '');
      }
      case 'value': {
        const limit = limitIn(view, step.limit ?? '');
        const right = limit?.cases.find(({ key }) => key === item);
        if (limit === undefined || right === undefined) return '';
        return `${right.given === '' ? '' : `${right.given}: `}${caseWords(limit, right)}`;
      }
      case 'crew':
        return `${crewLabel(resolved, step.by ?? '')} ${step.do === undefined ? 'says' : 'does'} this`;
    }
  };
}

/** The right run, the steps of what was overlooked marked. */
function runOf(window: Window, { lines, drawn }: SlipShown, overlooked: readonly Fault[]): ChipFinding[] {
  const { resolved, asked, steps, order } = window;
  const finding = findingsOf(resolved, asked, steps, order, drawn);
  const texts = new Map(lines.map(({ id, text }) => [id, foldText(text)]));
  const fill = fillerFor(resolved, drawn);
  return steps.map((one, row) => {
    const own = overlooked.find(({ step }) => step === one.step.id);
    // Of two exchanged the other one too.
    const isPartner = overlooked.some(
      ({ kind, lines: two }) => kind === 'swapped' && two.some((id) => texts.get(id) === foldText(fill(one.text))),
    );
    const state = own?.kind === 'missing' ? 'omitted' : (own && !isInserted(own)) || isPartner ? 'misplaced' : 'right';
    return finding(row, state);
  });
}

const nothing: SlipDetail = { form: 'slip', lines: [], run: [] };
