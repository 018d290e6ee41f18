import * as v from 'valibot';

/**
 * The practice log, format 1, as published in shared/entry.schema.json. Loose objects: what a newer version adds is kept
 * and passed on. Shape alone; what an entry means is said in DEVELOPERS.md.
 */
const id = v.pipe(v.string(), v.regex(/^[a-z0-9]+\.[0-9]+(~[0-9a-z]+)?(\/m[0-9]+)?$/));
const deckRef = v.pipe(v.string(), v.regex(/^[a-z0-9][a-z0-9-]*\/[a-z0-9][a-z0-9-]*@[0-9a-f]{16}$/));
const whole = v.pipe(v.number(), v.integer());
const marks = v.record(v.string(), v.picklist(['right', 'wrong', 'told', 'moved']));
const share = v.pipe(v.number(), v.minValue(0), v.maxValue(1));

const base = {
  v: v.literal(1),
  id,
  at: whole,
  off: whole,
  drill: v.optional(v.string()),
  app: v.string(),
};

const about = v.looseObject({
  thing: v.string(),
  situation: v.optional(v.string()),
  part: v.optional(v.array(v.string())),
  case: v.optional(v.string()),
  rule: v.optional(v.string()),
});

export const ENTRY_SHAPES = {
  answer: v.looseObject({
    ...base,
    k: v.literal('answer'),
    deck: deckRef,
    // A newer app may ask in ways that this one does not know: what was answered counts all the same.
    form: v.pipe(v.string(), v.regex(/^[a-z][a-z-]*$/)),
    about,
    variant: v.string(),
    seat: v.optional(v.string()),
    shown: v.unknown(),
    given: v.unknown(),
    sure: v.nullable(v.boolean()),
    unsure: v.optional(v.array(v.string())),
    ms: v.pipe(v.number(), v.minValue(0)),
    help: v.optional(v.string()),
    marks,
    flawed: v.optional(v.literal(true)),
    g: share,
    mv: whole,
  }),
  mark: v.looseObject({
    ...base,
    k: v.literal('mark'),
    of: id,
    mv: whole,
    marks,
    flawed: v.optional(v.literal(true)),
    g: share,
  }),
  void: v.looseObject({
    ...base,
    k: v.literal('void'),
    of: id,
    why: v.picklist(['mis-tap', 'query']),
    note: v.optional(v.string()),
  }),
  read: v.looseObject({ ...base, k: v.literal('read'), deck: deckRef, about: v.array(v.string()) }),
  set: v.looseObject({ ...base, k: v.literal('set'), key: v.string(), value: v.unknown() }),
  deck: v.looseObject({ ...base, k: v.literal('deck'), deck: deckRef, state: v.picklist(['in', 'out', 'seen']) }),
  missed: v.looseObject({
    ...base,
    k: v.literal('missed'),
    items: v.array(v.string()),
    where: v.picklist(['simulator', 'check']),
    day: whole,
  }),
  clock: v.looseObject({
    ...base,
    k: v.literal('clock'),
    writer: v.string(),
    from: whole,
    to: whole,
    shift: v.nullable(v.number()),
  }),
} as const;

/** What every line must have, of whatever version and kind. */
export const AnyShape = v.looseObject({
  v: whole,
  id,
  at: whole,
  off: whole,
  app: v.string(),
  k: v.string(),
});
