import { toJsonSchema } from '@valibot/to-json-schema';
import type { GenericSchema } from 'valibot';
import { DEFINITIONS, DeckShape } from '../../src/deck/schema.ts';
import { ASSIGNMENT_DEFINITIONS, AssignmentShape } from '../../src/exchange/assignment-shape.ts';
import { REPORT_DEFINITIONS, ReportShape } from '../../src/exchange/report-shape.ts';
import { ENTRY_SHAPES } from '../../src/log/shape.ts';

type Json = { [key: string]: unknown };

/** Parts that code picks by what is written: in JSON Schema, any of them. No input fits two. */
const branchesOf = (schema: GenericSchema): readonly GenericSchema[] | undefined =>
  (schema as { branches?: readonly GenericSchema[] }).branches;

function convert(schema: GenericSchema, names: ReadonlyMap<GenericSchema, string>, top = false): Json {
  const name = names.get(schema);
  if (name !== undefined && !top) return { $ref: `#/$defs/${name}` };
  const branches = branchesOf(schema);
  if (branches) return { anyOf: branches.map((b) => convert(b, names)) };
  // Named parts and branches stand in for themselves as definitions; the rest is plain conversion.
  const made = toJsonSchema(schema as never, {
    target: 'draft-2020-12',
    overrideSchema: ({ valibotSchema }) => {
      const inner = valibotSchema as unknown as GenericSchema & { type: string; getter?: () => GenericSchema };
      if (inner === schema) return undefined;
      if (names.has(inner) || branchesOf(inner)) return convert(inner, names);
      return inner.type === 'lazy' && inner.getter ? convert(inner.getter(), names) : undefined;
    },
  }) as Json;
  const { $schema: _, $defs, ...rest } = made;
  return inlined(rest, ($defs ?? {}) as Json) as Json;
}

/** The converter numbers whatever a lazy part first leads to; those small parts are put in place instead. */
function inlined(part: unknown, numbered: Json): unknown {
  if (Array.isArray(part)) return part.map((one) => inlined(one, numbered));
  if (typeof part !== 'object' || part === null) return part;
  const { $ref } = part as { $ref?: string };
  const number = typeof $ref === 'string' ? /^#\/\$defs\/(\d+)$/.exec($ref)?.[1] : undefined;
  if (number !== undefined) return inlined(numbered[number], numbered);
  return Object.fromEntries(Object.entries(part).map(([key, value]) => [key, inlined(value, numbered)]));
}

function document(id: string, title: string, body: Json, definitions: Json): string {
  const schema = { $schema: 'https://json-schema.org/draft/2020-12/schema', $id: id, title, ...body };
  return `${JSON.stringify(Object.keys(definitions).length > 0 ? { ...schema, $defs: definitions } : schema, null, 2)}\n`;
}

/** Parts that stand apart, under their names. */
function named(definitions: object): {
  readonly names: ReadonlyMap<GenericSchema, string>;
  readonly definitions: Json;
} {
  const parts = Object.entries(definitions) as [string, GenericSchema][];
  const names = new Map(parts.map(([name, schema]) => [schema, name]));
  return {
    names,
    definitions: Object.fromEntries(parts.map(([name, schema]) => [name, convert(schema, names, true)])),
  };
}

/** The published JSON Schemas (2020-12) by file name, as they must stand in shared/. */
export function schemas(): Record<
  'assignment.schema.json' | 'deck.schema.json' | 'entry.schema.json' | 'report.schema.json',
  string
> {
  const deck = named(DEFINITIONS);
  const report = named(REPORT_DEFINITIONS);
  const assignment = named(ASSIGNMENT_DEFINITIONS);
  const entries = Object.entries(ENTRY_SHAPES) as unknown as [string, GenericSchema][];
  return {
    'assignment.schema.json': document(
      'urn:recency:schema:assignment:1',
      'Recency assignment, format 1',
      convert(AssignmentShape as unknown as GenericSchema, assignment.names),
      assignment.definitions,
    ),
    'deck.schema.json': document(
      'urn:recency:schema:deck:1',
      'Recency deck, format 1',
      convert(DeckShape as unknown as GenericSchema, deck.names),
      deck.definitions,
    ),
    'entry.schema.json': document(
      'urn:recency:schema:entry:1',
      'Recency practice log entry, format 1',
      { anyOf: entries.map(([k]) => ({ $ref: `#/$defs/${k}` })) },
      Object.fromEntries(entries.map(([k, schema]) => [k, convert(schema, new Map(), true)])),
    ),
    'report.schema.json': document(
      'urn:recency:schema:report:1',
      'Recency progress report, format 1: the payload of its JWS',
      convert(ReportShape as unknown as GenericSchema, report.names),
      report.definitions,
    ),
  };
}
