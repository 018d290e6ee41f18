import { readdirSync, readFileSync } from 'node:fs';
import Ajv2020 from 'ajv/dist/2020.js';
import type * as v from 'valibot';
import { describe, expect, expectTypeOf, test } from 'vitest';
import { at } from '../../../scripts/lib/paths.mjs';
import { schemas } from '../../../scripts/lib/schemas.ts';
import { readValue } from '../../../src/deck/read.ts';
import { scan } from '../../../src/deck/scan.ts';
import type { DeckShape } from '../../../src/deck/schema.ts';
import type {
  CrewMember,
  DayValue,
  Deck,
  FactLimit,
  NumberAsk,
  NumberLimit,
  Procedure,
  Scenario,
  Source,
  Step,
  TableLimit,
  Use,
  VariantAxis,
} from '../../../src/model/deck.ts';
import type { FactLimitShape, NumberLimitShape, TableLimitShape } from '../../../src/subjects/limit/shape.ts';
import type { StepShape, UseShape } from '../../../src/subjects/procedure/shape.ts';
import type { NumberAskShape } from '../../../src/subjects/scenario/shape.ts';
import { BASE, changed, type Loose } from '../../fixtures/decks/base.ts';
import { PAIRS } from '../../fixtures/decks/findings.ts';

/** valibot's lists can be written to; those of the model cannot. */
type Writable<T> = T extends readonly unknown[] | object ? { -readonly [K in keyof T]: Writable<T[K]> } : T;
type Out<S extends v.GenericSchema> = v.InferOutput<S>;

test('the schema and the types of the model say the same', () => {
  expectTypeOf<Out<typeof DeckShape>>().toExtend<Deck>();
  expectTypeOf<keyof Out<typeof DeckShape>>().toEqualTypeOf<keyof Deck>();
  expectTypeOf<Writable<Step>>().toExtend<Writable<Out<typeof StepShape>>>();
  expectTypeOf<Writable<Use>>().toExtend<Writable<Out<typeof UseShape>>>();
  expectTypeOf<Writable<NumberLimit>>().toExtend<Writable<Out<typeof NumberLimitShape>>>();
  expectTypeOf<Writable<FactLimit>>().toExtend<Writable<Out<typeof FactLimitShape>>>();
  expectTypeOf<Writable<NumberAsk>>().toExtend<Writable<Out<typeof NumberAskShape>>>();
  expectTypeOf<keyof TableLimit>().toEqualTypeOf<keyof Out<typeof TableLimitShape>>();
  type Part<K extends 'procedures' | 'scenarios' | 'day' | 'crew' | 'sources' | 'variants'> = NonNullable<
    Out<typeof DeckShape>[K]
  >[number];
  expectTypeOf<keyof Procedure>().toEqualTypeOf<keyof Part<'procedures'>>();
  expectTypeOf<keyof Scenario>().toEqualTypeOf<keyof Part<'scenarios'>>();
  expectTypeOf<Writable<DayValue>>().toExtend<Writable<Part<'day'>>>();
  expectTypeOf<Writable<CrewMember>>().toExtend<Writable<Part<'crew'>>>();
  expectTypeOf<Writable<Source>>().toExtend<Writable<Part<'sources'>>>();
  expectTypeOf<Writable<VariantAxis>>().toExtend<Writable<Part<'variants'>>>();
});

describe('shared/', () => {
  test.each(Object.entries(schemas()))('%s is what the code says: else run npm run schema', (name, text) => {
    expect(readFileSync(at('shared', name), 'utf8')).toBe(text);
  });

  test('names no machine', () => {
    for (const text of Object.values(schemas())) {
      const { $id, $schema } = JSON.parse(text) as { $id: string; $schema: string };
      expect($id).toMatch(/^urn:recency:schema:/);
      expect($schema).toBe('https://json-schema.org/draft/2020-12/schema');
    }
  });
});

describe('a second opinion: ajv with the JSON Schema agrees with valibot', () => {
  const accepts = new Ajv2020({ strict: true, allowUnionTypes: true }).compile(
    JSON.parse(schemas()['deck.schema.json']),
  );
  const agree = (value: unknown): boolean => {
    const mine = readValue(value).findings.length === 0;
    const accepted = accepts(value);
    if (accepted !== mine)
      expect.fail(
        `ajv ${accepted ? 'takes' : 'refuses'} what valibot does not: ${JSON.stringify(readValue(value).findings)} ${JSON.stringify(accepts.errors)}`,
      );
    return mine;
  };

  test('on the decks that come with the app', () => {
    const decks = readdirSync(at('decks')).filter((f) => f.endsWith('.deck.json'));
    expect(decks.length).toBeGreaterThan(1);
    for (const file of decks) expect(agree(JSON.parse(readFileSync(at('decks', file), 'utf8')))).toBe(true);
  });

  test('on every fixture', () => {
    let [taken, refused] = [0, 0];
    for (const { fail, pass } of Object.values(PAIRS)) {
      for (const half of [fail, pass]) {
        const text = typeof half === 'string' ? half : JSON.stringify(changed(half));
        // What the reader refuses before the shape is no matter of the schema.
        if (scan(text) !== null) continue;
        if (agree(JSON.parse(text))) taken += 1;
        else refused += 1;
      }
    }
    expect(taken).toBeGreaterThan(80);
    expect(refused).toBeGreaterThan(5);
  });

  /** Every place of the base deck with its keys from the root. */
  const placesOf = (x: unknown, keys: readonly string[] = []): (readonly string[])[] =>
    typeof x === 'object' && x !== null
      ? [keys, ...Object.entries(x).flatMap(([k, y]) => placesOf(y, [...keys, k]))]
      : [keys];

  const odd: readonly unknown[] = [null, true, '', 'x', -1, 1.5, [], {}, ['x'], { x: 'y' }, { not: [] }, { not: {} }];

  test('on the base deck with an odd value at any place, and with any key left out or added', () => {
    let refused = 0;
    for (const keys of placesOf(BASE).filter((k) => k.length > 0)) {
      const last = keys.at(-1) as string;
      const within = (d: Loose): Loose => keys.slice(0, -1).reduce((x, k) => x[k], d);
      for (const value of odd) {
        const made = changed((d) => {
          within(d)[last] = value;
        });
        if (!agree(made)) refused += 1;
      }
      const without = changed((d) => {
        if (Array.isArray(within(d))) within(d).splice(Number(last), 1);
        else delete within(d)[last];
      });
      agree(without);
      const more = changed((d) => {
        if (!Array.isArray(within(d))) within(d).oneOf = ['x'];
      });
      agree(more);
    }
    expect(refused).toBeGreaterThan(1000);
  });
});
