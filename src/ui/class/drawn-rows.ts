import type { Cell, Row } from '../../class/table.ts';
import { checkedWords, NEVER_ASKED, NOT_ASKED, share, shortMinutes, shortSureWrong, whenWords } from './words.ts';

/** Copied with all it holds: several times as fast as making each node anew, and a class has thousands. */
const pattern = <T extends Element>(make: () => T): (() => T) => {
  let made: T | undefined;
  return () => {
    made ??= make();
    return made.cloneNode(true) as T;
  };
};

const element = <K extends keyof HTMLElementTagNameMap>(name: K, className = '', ...inside: (Node | string)[]) => {
  const made = document.createElement(name);
  if (className !== '') made.className = className;
  made.append(...inside);
  return made;
};
const withRole = <T extends Element>(made: T, role: string): T => {
  made.setAttribute('role', role);
  return made;
};

// Rows are no table rows to CSS on a screen: readers are told by their roles what they are all the same.
const rowPattern = pattern(() => {
  const name = withRole(
    element('th', '', element('a', 'deck-link', ' '), element('span', 'small soft', ' ')),
    'rowheader',
  );
  name.scope = 'row';
  return withRole(element('tr', '', name), 'row');
});
const cellPattern = pattern(() => withRole(element('td', '', ' '), 'cell'));
const weakPattern = pattern(() => element('span', 'weak', ' '));
const smallPattern = pattern(() => element('span', 'small', ' '));
const criticalPattern = pattern(() => element('span', 'small lowest', ' '));
const unmetPattern = pattern(() =>
  element('span', 'small lowest', '–', element('span', 'hidden-visually', NEVER_ASKED)),
);
const unaskedPattern = pattern(() =>
  withRole(element('td', '', '–', element('span', 'hidden-visually', NOT_ASKED)), 'cell'),
);

const say = (made: Element, words: string): Element => {
  (made.firstChild as Text).data = words;
  return made;
};

const cellOf = (cell: Pick<Cell, 'recall' | 'critical' | 'below' | 'check'> | null): Element => {
  if (cell === null) return unaskedPattern();
  const made = cellPattern();
  if (cell.below) made.replaceChildren(say(weakPattern(), share(cell.recall)));
  else say(made, share(cell.recall));
  if (cell.critical !== null)
    made.append(cell.critical === 0 ? unmetPattern() : say(criticalPattern(), share(cell.critical)));
  if (cell.check !== undefined) made.append(say(smallPattern(), checkedWords(cell.check)));
  return made;
};

/** A trainee as a row of the table: name, all, minutes, sure but wrong, and a cell for each procedure. */
export const drawnRow = (row: Row): Element => {
  const { person, items, recall, critical, below } = row;
  const made = rowPattern();
  const [link, when] = (made.firstElementChild as Element).children as unknown as [HTMLAnchorElement, Element];
  say(link, person.name);
  link.setAttribute('href', `#/class/${person.id}`);
  say(when, whenWords(row));
  const told = [shortMinutes(row), shortSureWrong(row)].map(({ figure, of, done = '' }) => {
    const cell = say(cellPattern(), figure);
    if (of !== null) cell.append(say(smallPattern(), of));
    if (done !== '') cell.append(say(smallPattern(), done));
    return cell;
  });
  made.append(cellOf(items === 0 ? null : { recall, critical, below: below > 0 }), ...told, ...row.cells.map(cellOf));
  return made;
};
