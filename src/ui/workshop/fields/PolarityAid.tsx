import { parted } from '../../../draft/change.ts';
import type { Json } from '../../../lib/canonical-json.ts';
import { isMembers } from '../../../lib/json.ts';
import { useOf } from './editing.ts';

const DENIES = /(^|\s)(no|not|never|without)(\s|$)/i;

/** What formulas read as so, where its words deny something and those of its opposite do not; '' where all is well. */
export const deniedWords = (condition: Json | undefined): string => {
  if (!isMembers(condition)) return '';
  const { yes, no } = condition;
  if (typeof yes !== 'string' || typeof no !== 'string' || no.trim() === '') return '';
  return DENIES.test(yes) && !DENIES.test(no) ? yes : '';
};

/** A condition that is so when something is not: formulas read easily the wrong way. @param props.path of one of its fields */
export function PolarityAid({ path }: { readonly path: string }) {
  const { parent } = parted(path);
  const text = useOf((draft) => {
    const condition = draft.at(parent);
    const said = deniedWords(condition);
    return said === '' || !isMembers(condition) ? '' : JSON.stringify([condition.id ?? '', said]);
  }, path);
  if (text === '') return null;
  const [name, said] = JSON.parse(text) as [string, string];
  return (
    <p class="note">
      Formulas read <code>{name}</code> as: {said}. Is it a name for that? If not, let the two texts change places, or
      give it another name.
    </p>
  );
}
