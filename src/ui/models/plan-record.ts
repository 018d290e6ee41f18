import type { Advice, Outlook } from '../../memory/outlook.ts';
import type { Plan } from '../../memory/plan/types.ts';
import type { Store } from '../../model/ports.ts';

/** A plan, and what is known of it by now. It is stored on this device as it is. */
export interface PlanRecord {
  readonly v: 1;
  /** Of what it was made: with the same key it is not made again. */
  readonly key: string;
  /** The same without the day and the minutes: it is still worth something to the drill. */
  readonly same: string;
  readonly plan: Plan;
  /** Of each row of the plan what it asks for, as its author calls it. */
  readonly labels: readonly string[];
  /** Titles of procedures; `limits` and `scenarios` by their deck. */
  readonly groups: readonly string[];
  readonly minutes: number;
  /** Answers known when it was made. */
  readonly answers: number;
  readonly outlook: Outlook | null;
  readonly advice: Advice | null;
}

type Device = Store['device'];

/** Tables of one class of items; the browser copies a value of more than 64 kB into a file, which holds up the page. */
interface Part {
  /** Of the record that it belongs to. */
  readonly key: string;
  readonly value: Float32Array;
  readonly gain: Float32Array;
}

/**
 * @param withTables false: the tables of the same plan are kept already
 * @throws StoreProblem
 */
export const keepPlan = async (
  device: Device,
  name: string,
  record: PlanRecord,
  withTables: boolean,
): Promise<void> => {
  const { key, plan } = record;
  if (withTables)
    for (const [i, value] of plan.values.entries())
      await device.put(`${name}/${i}`, { key, value, gain: plan.gains[i] });
  await device.put(name, { ...record, plan: { ...plan, values: [], gains: [] } });
};

/** @returns null where nothing whole is kept @throws StoreProblem */
export const keptPlan = async (device: Device, name: string): Promise<PlanRecord | null> => {
  const head = (await device.get(name)) as Partial<PlanRecord> | undefined;
  const classes = head?.plan?.classes;
  if (!Array.isArray(classes)) return null;
  const parts = await Promise.all(classes.map((_, i) => device.get(`${name}/${i}`) as Promise<Part | undefined>));
  if (parts.some((part) => part?.key !== head?.key)) return null;
  const values = parts.map((part) => part?.value);
  const gains = parts.map((part) => part?.gain);
  return readRecord({ ...head, plan: { ...head?.plan, values, gains } });
};

/** What was stored, if it is one: it may be of another version of the app, or damaged. */
const readRecord = (value: unknown): PlanRecord | null => {
  if (typeof value !== 'object' || value === null) return null;
  const { v, key, same, plan, labels, groups, minutes, answers } = value as Partial<PlanRecord>;
  const isText = (list: unknown) => Array.isArray(list) && list.every((one) => typeof one === 'string');
  const isWhole =
    v === 1 &&
    typeof key === 'string' &&
    typeof same === 'string' &&
    typeof minutes === 'number' &&
    typeof answers === 'number' &&
    isText(labels) &&
    isText(groups) &&
    plan?.kind === 'planned' &&
    Number.isInteger(plan.day) &&
    plan.prices?.length === plan.checkDay - plan.day &&
    plan.classes?.length > 0 &&
    [plan.values, plan.gains].every(
      (list) => list?.length === plan.classes.length && list.every((one) => one instanceof Float32Array),
    ) &&
    plan.itemRecall instanceof Float32Array &&
    plan.itemRecall.length === labels?.length;
  return isWhole ? (value as PlanRecord) : null;
};
