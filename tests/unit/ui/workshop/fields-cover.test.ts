import { readFileSync } from 'node:fs';
import * as v from 'valibot';
import { describe, expect, test } from 'vitest';
import { DeckSchema } from '../../../../src/deck/schema.ts';
import type { Fields, Kind, Shape, Single, Spec } from '../../../../src/ui/workshop/fields/spec.ts';
import { CONDITIONS, CREW, DAY, DECK, SOURCES, VARIANTS } from '../../../../src/ui/workshop/forms/deck-fields.ts';
import { LIMIT } from '../../../../src/ui/workshop/forms/limit-fields.ts';
import { AREAS, PACED_RUNS } from '../../../../src/ui/workshop/forms/paced-fields.ts';
import { BLOCK, PROCEDURE, STEP, USE } from '../../../../src/ui/workshop/forms/procedure-fields.ts';
import { SCENARIO } from '../../../../src/ui/workshop/forms/scenario-fields.ts';
import { EVERY_FIELD } from '../../../fixtures/decks/every-field.ts';

/** A part of the published JSON Schema (draft 2020-12), as far as it is used there. */
interface Schema {
  readonly $ref?: string;
  readonly type?: string;
  readonly enum?: readonly string[];
  readonly const?: unknown;
  readonly anyOf?: readonly Schema[];
  readonly properties?: Readonly<Record<string, Schema>>;
  readonly required?: readonly string[];
  readonly items?: Schema | false;
  readonly prefixItems?: readonly Schema[];
  readonly additionalProperties?: Schema | false;
}

const published = JSON.parse(
  readFileSync(new URL('../../../../shared/deck.schema.json', import.meta.url), 'utf8'),
) as Schema & { readonly $defs: Readonly<Record<string, Schema>> };

const named = (schema: Schema): string => schema.$ref?.split('/').at(-1) ?? '';
const known = (schema: Schema): Schema => (schema.$ref === undefined ? schema : (published.$defs[named(schema)] ?? {}));

/** Written on a page of its own, or not by hand. */
const only = (fields: Fields): Shape => [{ label: '', fields, is: () => true, blank: {} }];
const block = { label: '', fields: BLOCK, is: () => true, blank: {} };
const PAGES: Readonly<Record<string, Shape>> = {
  '/sources': SOURCES.each,
  '/variants': VARIANTS.each,
  '/crew': CREW.each,
  '/day': DAY.each,
  '/conditions': CONDITIONS.each,
  '/procedures': only(PROCEDURE),
  '/procedures/*/steps': [...only(STEP), block, block, ...only(USE)] as unknown as Shape,
  '/limits': LIMIT,
  '/scenarios': only(SCENARIO),
  '/paced': PACED_RUNS.each,
  '/areas': AREAS.each,
};
/** The format is one number; signatures are made by signing; the page of the procedure holds nodes within nodes. */
const NOT_BY_HAND = new Set(['/format', '/signatures']);

const sorted = (words: Iterable<string>): string => [...words].sort().join(' ');

/** Complaints about what a form cannot write, or would write otherwise. */
const shapeComplaints = (schema: Schema, shape: Shape, path: string): string[] => {
  const branches = (known(schema).anyOf ?? [schema]).map(known);
  return [
    ...branches.flatMap((branch) => {
      const keys = sorted(Object.keys(branch.properties ?? {}));
      const fits = shape.find(({ fields }) => sorted(Object.keys(fields)) === keys);
      return fits === undefined
        ? [`${path}: no form with the fields ${keys}`]
        : fieldComplaints(branch, fits.fields, path);
    }),
    ...(shape.length > branches.length ? [`${path}: more ways in the form than in the schema`] : []),
  ];
};

const fieldComplaints = (schema: Schema, fields: Fields, path: string): string[] =>
  Object.entries(schema.properties ?? {}).flatMap(([key, member]) => {
    const spec = fields[key];
    const place = `${path}/${key}`;
    if (spec === undefined) return [`${place}: no field`];
    const required = schema.required?.includes(key) === true;
    // Exactly one of steps and lanes: the page of the procedure makes it.
    const must = place.endsWith('/steps') || place.endsWith('/lanes') ? [] : requiredComplaints(spec, required, place);
    return [...must, ...kindComplaints(member, spec.kind, place)];
  });

const requiredComplaints = (spec: Spec, required: boolean, place: string): string[] =>
  (spec.required === true) === required ? [] : [`${place}: required in one of form and schema alone`];

const singleFits = (schema: Schema, of: Single): boolean =>
  known(schema).type === (of.is === 'number' ? 'number' : 'string');

const kindComplaints = (schema: Schema, kind: Kind, path: string): string[] => {
  const { type, enum: words, items, additionalProperties: members } = known(schema);
  const unless = (fits: boolean): string[] => (fits ? [] : [`${path}: ${kind.is} does not write it`]);
  switch (kind.is) {
    case 'words':
    case 'formula':
    case 'date':
    case 'id':
    case 'called':
    case 'refer':
    case 'source':
      return unless(type === 'string' && words === undefined);
    case 'number':
      return unless(type === 'number');
    case 'yes':
      return unless(type === 'boolean');
    case 'choice':
      return unless(words !== undefined && sorted(words) === sorted(kind.of.map(([word]) => word)));
    case 'band':
      return unless(named(schema) === 'Band');
    case 'when':
      return unless(named(schema) === 'When');
    case 'given':
      return unless(named(schema) === 'Given');
    case 'rows':
      return unless(type === 'array' && items !== false && items?.prefixItems?.length === 2);
    case 'strangers':
      return unless(type === 'array' && items !== false && items?.anyOf?.length === 2);
    case 'list':
      return unless(type === 'array' && !!items && singleFits(items, kind.of));
    case 'part':
      return [...unless(type === 'object'), ...fieldComplaints(known(schema), kind.fields, path)];
    case 'things':
      return items ? shapeComplaints(items, kind.each, `${path}/*`) : unless(false);
    case 'record': {
      if (!members) return unless(false);
      if (!('single' in kind.each)) return shapeComplaints(members, kind.each, `${path}/*`);
      return unless(known(members).type === 'string');
    }
    case 'elsewhere': {
      const page = PAGES[path];
      if (page !== undefined && items) return shapeComplaints(items, page, `${path}/*`);
      const within = /\/steps\/\*\/(steps|lanes)$|\/strangers$/.test(path);
      return NOT_BY_HAND.has(path) || within ? [] : [`${path}: written nowhere`];
    }
  }
};

/** Of several shapes the one that a value has: all its keys are known there, all that are required are there. */
const branchOf = (branches: readonly Schema[], value: unknown): Schema | undefined =>
  branches.find((branch) => {
    const { type, properties, required = [] } = known(branch);
    if (Array.isArray(value) || typeof value !== 'object' || value === null)
      return type === (Array.isArray(value) ? 'array' : typeof value);
    if (type !== 'object') return false;
    const keys = Object.keys(value);
    return properties === undefined
      ? !keys.includes('not')
      : keys.every((key) => {
          const member = known(properties[key] ?? {});
          return member.anyOf !== undefined || Array.isArray((value as never)[key]) === (member.type === 'array');
        }) &&
          keys.every((key) => key in properties) &&
          required.every((key) => keys.includes(key));
  });

const complaints = (fields: Fields = DECK): string[] => fieldComplaints(published, fields, '');

describe('what a deck can say has a field', () => {
  test('of the right kind, required where the schema requires it', () => {
    expect(complaints()).toEqual([]);
  });

  test('each definition of the schema is met on the way', () => {
    const met = new Set<string>();
    const visit = (schema: Schema): void => {
      const name = named(schema);
      if (name !== '' && met.has(name)) return;
      met.add(name);
      const { properties = {}, items, prefixItems = [], additionalProperties, anyOf = [] } = known(schema);
      for (const one of [...Object.values(properties), ...prefixItems, ...anyOf]) visit(one);
      if (items) visit(items);
      if (additionalProperties) visit(additionalProperties);
    };
    visit(published);
    expect(Object.keys(published.$defs).filter((name) => !met.has(name))).toEqual([]);
  });

  test('and is written in the deck that the browser writes through the forms', () => {
    expect(v.is(DeckSchema, EVERY_FIELD)).toBe(true);
    const [all, met] = [new Set<string>(), new Set<string>()];
    const seen = new Set<Schema>();
    /** Members of each object of the schema, by the place where it is first met. */
    const visit = (schema: Schema, path: string, values: readonly unknown[]): void => {
      const one = known(schema);
      const objects = values.filter((value) => typeof value === 'object' && value !== null);
      const within = (key: string) =>
        objects.flatMap((value) =>
          Object.hasOwn(value as object, key) ? [(value as Record<string, unknown>)[key]] : [],
        );
      if (schema.$ref !== undefined && seen.has(one) && objects.length === 0) return;
      seen.add(one);
      const name = schema.$ref === undefined ? path : named(schema);
      for (const branch of one.anyOf ?? []) {
        const fit = values.filter((value) => branchOf(one.anyOf ?? [], value) === branch);
        visit(branch, name, fit);
      }
      for (const [key, member] of Object.entries(one.properties ?? {})) {
        all.add(`${name}/${key}`);
        const there = within(key);
        if (there.length > 0) met.add(`${name}/${key}`);
        if (there.length > 0) visit(member, `${name}/${key}`, there);
      }
      if (one.items)
        visit(
          one.items,
          `${name}/*`,
          values.flatMap((value) => (Array.isArray(value) ? value : [])),
        );
      if (one.additionalProperties)
        visit(
          one.additionalProperties,
          `${name}/*`,
          objects.flatMap((value) => Object.values(value as object)),
        );
    };
    visit(published, '', [EVERY_FIELD]);
    // Signing makes the one; of the others a block has exactly one.
    const apart = ['/signatures', 'LanesBlock/steps', 'StepsBlock/lanes'];
    expect([...all].filter((place) => !met.has(place)).sort()).toEqual(apart.sort());
    expect(all.size).toBeGreaterThan(150);
  });

  test.each([
    ['a field left out', { ...DECK, about: undefined }, '/about: no field'],
    ['another kind', { ...DECK, about: { ...DECK.about, kind: { is: 'number' } } }, '/about: number does not write it'],
    ['a choice too few', { ...DECK, nature: { ...DECK.nature, kind: { is: 'choice', of: [] } } }, '/nature: choice'],
    ['not required', { ...DECK, title: { ...DECK.title, required: undefined } }, '/title: required in one'],
    ['written nowhere', { ...DECK, about: { ...DECK.about, kind: { is: 'elsewhere' } } }, '/about: written nowhere'],
  ])('a complaint about %s', (_what, fields, said) => {
    expect(complaints(fields as unknown as Fields).join('\n')).toContain(said);
  });
});
