import { type Change, put, valueAt } from '../../../draft/change.ts';
import { namesIn } from '../../../draft/mint-name.ts';
import type { Json } from '../../../lib/canonical-json.ts';
import { isList, isMembers, type Members } from '../../../lib/json.ts';

const DRAWN: Members = {
  runway: { oneOf: [70, 250], show: 'runway', label: 'Runway' },
  windDir: { from: 10, to: 360, step: 10, show: 'direction', label: 'Wind direction' },
  windSpeed: { from: 4, to: 30, unit: 'kt', label: 'Wind speed' },
};
const WORKED_OUT: Members = {
  cross: 'abs(crosswind(windDir, windSpeed, runway))',
  tail: 'max(0, -headwind(windDir, windSpeed, runway))',
};
/** No more tailwind than is flown with. Common practice, no source. */
const SOUND = 'tail <= 10';

const membersAt = (doc: Json, path: string): Members => {
  const there = valueAt(doc, path);
  return isMembers(there) ? there : {};
};

/** What the picture shows and the scenario does not draw yet. */
export const windMissing = (doc: Json, path: string): boolean =>
  Object.keys(DRAWN).some((name) => membersAt(doc, `${path}/draw`)[name] === undefined);

/** Runway and wind drawn, crosswind and tailwind worked out, and the picture; what is there under these names stays. */
export const windDrawn = (doc: Json, path: string): Change[] => {
  const draw = membersAt(doc, `${path}/draw`);
  const taken = namesIn(doc, path);
  const missing = Object.entries(WORKED_OUT).filter(([name]) => !taken.has(name));
  const lets: Members = { ...membersAt(doc, `${path}/let`), ...Object.fromEntries(missing) };
  const tails = missing.some(([name]) => name === 'tail') && valueAt(doc, `${path}/require`) === undefined;
  return [
    put(doc, `${path}/draw`, { ...DRAWN, ...draw } as Json),
    ...(missing.length > 0 ? [put(doc, `${path}/let`, lets as Json)] : []),
    ...(tails ? [put(doc, `${path}/require`, [SOUND])] : []),
    put(doc, `${path}/picture`, 'runway-wind'),
  ];
};

const isBlank = (value: Json | undefined): boolean =>
  value === undefined || value === '' || (isList(value) && value.length === 0);

/** Nothing is drawn, worked out, asked or told yet. */
export const isBegun = (doc: Json, path: string): boolean => {
  const { situation, draw, let: lets, asks } = membersAt(doc, path);
  const none = (record: Json | undefined) => isMembers(record) && Object.keys(record).length === 0;
  return !(
    (draw === undefined || none(draw)) &&
    (lets === undefined || none(lets)) &&
    isBlank(asks) &&
    isBlank(situation)
  );
};

/** A first crosswind question. */
export const windBegun = (doc: Json, path: string): Change[] => [
  ...windDrawn(doc, path),
  put(doc, `${path}/situation`, 'Runway {runway}, tower wind {windDir} at {windSpeed} kt.'),
  put(doc, `${path}/asks`, [{ id: 'crosswind', ask: 'Crosswind component', number: 'cross', unit: 'kt', accept: 2 }]),
];

/** Something that happens or not, and a choice of what to do, by a rule for it; the words are the author's. */
export const eventBegun = (doc: Json, path: string): Change[] => [
  put(doc, `${path}/draw`, { event: { oneOf: { none: '', event: '' }, label: 'Event' } }),
  put(doc, `${path}/situation`, '{event}'),
  put(doc, `${path}/asks`, [
    {
      id: 'question-1',
      ask: 'What do you do?',
      choose: {
        options: { option: '', 'option-2': '' },
        rules: [
          // biome-ignore lint/suspicious/noThenProperty: a rule of a deck says "then"
          { id: 'rule-1', if: 'event == "event"', then: ['option'] },
          // biome-ignore lint/suspicious/noThenProperty: a rule of a deck says "then"
          { id: 'rule-2', then: ['option-2'] },
        ],
      },
    },
  ]),
];
