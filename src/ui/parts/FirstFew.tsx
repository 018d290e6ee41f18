import type { JSX } from 'preact';
import { Folded } from './Later.tsx';

/**
 * The first of a list, the rest folded.
 * @param props.more how the rest is told, by their number
 */
export function FirstFew<T>(props: {
  readonly all: readonly T[];
  readonly most: number;
  readonly more: (rest: number) => string;
  readonly children: (some: readonly T[]) => JSX.Element;
}) {
  const { all, most, more, children } = props;
  return (
    <>
      {children(all.slice(0, most))}
      {all.length > most && <Folded summary={more(all.length - most)}>{() => children(all.slice(most))}</Folded>}
    </>
  );
}
