import { valueAt } from '../../../draft/change.ts';
import { mint } from '../../../draft/mint.ts';
import { mintName, namesIn } from '../../../draft/mint-name.ts';
import { idsBeside, rename } from '../../../draft/rename.ts';
import { isName } from '../../../formula/parse.ts';
import type { Json } from '../../../lib/canonical-json.ts';
import { isMembers } from '../../../lib/json.ts';
import type { DraftModel } from '../model/draft.ts';
import { below } from './editing.ts';
import type { Fields, Id } from './spec.ts';

const FORMS: Readonly<Record<Id['form'], { readonly is: (text: string) => boolean; readonly what: string }>> = {
  id: { is: (text) => /^[a-z0-9][a-z0-9-]*$/.test(text), what: 'small letters, digits and hyphens, such as gear-up' },
  name: { is: isName, what: 'a small letter, then letters and digits, such as windSpeed' },
  crew: { is: (text) => /^[A-Za-z0-9][A-Za-z0-9-]*$/.test(text), what: 'letters, digits and hyphens, such as PF' },
};

/** What the id at that place must not be. */
const takenBy = (doc: Json, path: string, form: Id['form']): string[] =>
  form === 'name' ? [...namesIn(doc)] : idsBeside(doc, path);

/** What is wrong with a new name; null: nothing. @param taken names beside it */
export const nameFault = (to: string, form: Id['form'], taken: readonly string[]): string | null => {
  if (!FORMS[form].is(to)) return `Write ${FORMS[form].what}. The old name stays until then.`;
  return taken.includes(to) ? `“${to}” is taken. The old name stays until you choose another.` : null;
};

export const idFault = (doc: Json, path: string, to: string, form: Id['form']): string | null =>
  valueAt(doc, path) === to ? null : nameFault(to, form, takenBy(doc, path, form));

const isPlain = (id: Json | undefined, plain: string): boolean =>
  typeof id === 'string' && (id === '' || new RegExp(`^${plain}-?\\d*$`).test(id));

/** A thing without words, called as things are before there are any: nobody can have a memory of it. */
export const isNameless = (draft: DraftModel, path: string, id: Id): boolean => {
  const value = draft.at(path);
  if (!isMembers(value) || !isPlain(value.id, id.plain)) return false;
  return id.words.every((key) => value[key] === undefined || value[key] === '');
};

/** Calls a thing after its words. */
export const nameAfterWords = (draft: DraftModel, path: string, id: Id): void => {
  const value = draft.at(path);
  if (!isMembers(value) || !isPlain(value.id, id.plain)) return;
  const words = id.words.map((key) => value[key]).find((one) => one !== undefined && one !== '');
  if (typeof words !== 'string' || words === '') return;
  const doc = draft.value.peek();
  const place = below(path, 'id');
  const own = valueAt(doc, place);
  const taken = new Set(takenBy(doc, place, id.form).filter((one) => one !== own));
  const name = id.form === 'name' ? mintName(words, taken, id.plain) : mint(words, taken, id.plain);
  draft.change('Name in the file', rename(doc, place, name), 'along');
};

export const idOf = (fields: Fields): Id | null => {
  const kind = fields.id?.kind;
  return kind?.is === 'id' ? kind : null;
};
