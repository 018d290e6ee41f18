import type { ComponentChildren } from 'preact';
import { useEffect, useLayoutEffect, useRef } from 'preact/hooks';

/** First smaller gaps, then smaller letters, then lower rows. */
const CLOSER = ['snug', 'dense', 'least'];

/**
 * A screen's page: its heading takes the focus when it comes up, so that a screen reader starts there.
 * @param props.bar what stands at the thumb
 */
export function Sheet(props: {
  readonly title: string;
  readonly top?: ComponentChildren;
  readonly bar?: ComponentChildren;
  readonly children: ComponentChildren;
  /** The heading is for screen readers alone. */
  readonly bare?: boolean;
  /** Which page it is, where its title may change while it is read. */
  readonly page?: string;
  /** Where it does not fit the screen, letters and gaps are smaller; seen before it is drawn, so that nothing moves. */
  readonly dense?: boolean;
}) {
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    document.title = `${props.title} · Recency`;
  }, [props.title]);
  const sheet = useRef<HTMLElement>(null);
  useLayoutEffect(() => {
    if (!props.dense) return;
    const page = document.documentElement;
    sheet.current?.classList.remove(...CLOSER, 'over');
    // Where that is not enough, without the line above the buttons.
    for (const name of [...CLOSER, 'over'])
      sheet.current?.classList.toggle(name, page.scrollHeight > page.clientHeight);
    // Letters so large that the bar would take a fifth of the screen from the rows: it stands below them.
    const foot = sheet.current?.nextElementSibling;
    foot?.classList.toggle('below', page.scrollHeight > page.clientHeight && foot.clientHeight > page.clientHeight / 5);
  }, [props.page ?? props.title]);
  // With the drawing, not after it: a link that leads into a field of this page puts the cursor there with the next
  // frame, and what is typed then must not go to the heading.
  useLayoutEffect(() => {
    heading.current?.focus({ preventScroll: true });
    scrollTo(0, 0);
  }, [props.page ?? props.title]);
  return (
    <>
      {props.top}
      <main class="sheet" ref={sheet}>
        <h1 tabIndex={-1} ref={heading} class={props.bare ? 'hidden-visually' : ''}>
          {props.title}
        </h1>
        {props.children}
      </main>
      {props.bar !== undefined && <footer class="foot">{props.bar}</footer>}
    </>
  );
}

export function Tabs(props: { readonly at: 'brief' | 'decks' | 'settings' }) {
  const here = (at: string) => (at === props.at ? { 'aria-current': 'page' as const } : {});
  return (
    <nav class="bar" aria-label="Recency">
      <a href="#/" {...here('brief')}>
        Brief
      </a>
      <a href="#/decks" {...here('decks')}>
        Decks
      </a>
      <a href="#/settings" {...here('settings')}>
        Settings
      </a>
    </nav>
  );
}
