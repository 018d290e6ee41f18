/** Files that are dropped on a page of a draft: a list is no deck, and what is typed there must not go with the page. */
import { signal } from '@preact/signals';
import { type Route, route } from '../route.ts';

/** Why a file that was dropped is left alone, and on which page that is to be read. */
export const leftAlone = signal<{ readonly at: Route; readonly why: string } | null>(null);

/** A list by its name; one that holds a deck is a deck all the same. */
const isList = async (file: File): Promise<boolean> =>
  /\.(csv|tsv|txt)$/i.test(file.name) && !(await file.slice(0, 1000).text()).trimStart().startsWith('{');

/** A list goes where the page has a field for one, as if it were chosen there. @returns why it does not */
const giveList = (file: File): string | null => {
  const field = document.querySelector<HTMLInputElement>('main input[type=file][accept*=".csv"]');
  if (field === null) return `${file.name} is no deck. To make steps of it, open “From a list” and drop it there.`;
  if ((document.querySelector<HTMLTextAreaElement>('main textarea')?.value ?? '').trim() !== '')
    return `There is text in the field already. Read it or clear it first, then drop ${file.name} again.`;
  const data = new DataTransfer();
  data.items.add(file);
  field.files = data.files;
  field.dispatchEvent(new Event('change', { bubbles: true }));
  return null;
};

/** @returns whether that is all: given to the page, or told why not; false where it may be a deck */
export const isForDraft = async ([file, ...more]: readonly File[]): Promise<boolean> => {
  if (file === undefined) return false;
  if (more.length === 0 && !(await isList(file).catch(() => false))) return false;
  const why = more.length > 0 ? 'Drop one file at a time.' : giveList(file);
  leftAlone.value = why === null ? null : { at: route.value, why };
  return true;
};
