import type { ComponentChildren, JSX } from 'preact';
import { useEffect, useState } from 'preact/hooks';
import { inTurn } from '../models/in-pieces.ts';

/**
 * Whether the turn of a part has come that is there by now: of parts that come up together each is drawn before the
 * next, or they would hold a slow phone up.
 */
export const useTurn = (isThere: boolean): boolean => {
  const [come, setCome] = useState(false);
  useEffect(() => {
    if (!isThere) return setCome(false);
    let gone = false;
    void inTurn().then(() => {
      if (!gone) setCome(true);
    });
    return () => {
      gone = true;
    };
  }, [isThere]);
  return isThere && come;
};

/** A part of a screen that is drawn in a turn of its own. */
export function Later(props: { readonly children: () => JSX.Element }) {
  return useTurn(true) ? props.children() : null;
}

/** What is drawn when it is first opened. */
export function Folded(props: { readonly summary: string; readonly children: () => JSX.Element }) {
  const [opened, setOpened] = useState(false);
  return (
    <details onToggle={(event) => event.currentTarget.open && setOpened(true)}>
      <summary class="button plain">{props.summary}</summary>
      {opened && props.children()}
    </details>
  );
}

/** A part of a page under one line that tells what is in it; drawn when it is first opened. */
export function Fold(props: {
  readonly title: string;
  /** What the heading is known by, where a region is named by it. */
  readonly id?: string;
  readonly said?: ComponentChildren;
  readonly children: () => ComponentChildren;
}) {
  const [opened, setOpened] = useState(false);
  return (
    <details class="fold" onToggle={(event) => event.currentTarget.open && setOpened(true)}>
      <summary>
        <h2 id={props.id}>{props.title}</h2>
        <span class="soft small">{props.said}</span>
      </summary>
      {opened && <div class="stack">{props.children()}</div>}
    </details>
  );
}
