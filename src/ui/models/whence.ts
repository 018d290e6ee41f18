/**
 * Where a page was come to from stands in its address, behind its own name, so that its way back leads there after a
 * reload too: `#/record/report/settings` leads back to `#/report/settings`, and that to `#/settings`.
 */
const WORDS: Readonly<Record<string, string>> = {
  settings: 'Settings',
  debrief: 'Debrief',
  date: 'Check date',
  report: 'Progress report',
};

/** @param otherwise where the address names no page */
export const whence = (otherwise: 'brief' | 'report'): { readonly href: string; readonly words: string } => {
  const [, ...back] = location.hash.replace(/^#\/?/, '').split('/');
  const words = WORDS[back[0] ?? ''];
  if (words !== undefined) return { href: `#/${back.join('/')}`, words };
  return otherwise === 'brief' ? { href: '#/', words: 'Brief' } : { href: '#/report', words: 'Progress report' };
};

/** Of a page come to from this one: its address. */
export const onwards = (at: 'report' | 'record'): string => `#/${at}/${location.hash.replace(/^#\/?/, '')}`;
