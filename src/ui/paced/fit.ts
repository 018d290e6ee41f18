import type { RefObject } from 'preact';
import { useEffect, useLayoutEffect } from 'preact/hooks';

/** First a smaller read-out, then smaller letters on the buttons (`data-tight` in paced.css). */
const TIGHTEST = 4;

/**
 * A run leaves no time to scroll: with very large letters, or very long words, all is drawn closer until the buttons are in
 * sight at once. Closer only as a run goes on, so that places stay; anew where the window changes, and after a pause.
 * @param bar what holds the buttons
 */
export const useFit = (bar: RefObject<HTMLElement | null>): void => {
  const draw = () => {
    const foot = bar.current?.parentElement;
    const app = foot?.parentElement;
    if (!bar.current || !foot || !app) return;
    const all = [document.documentElement, foot, bar.current];
    const isOver = () => all.some((one) => one.scrollHeight > one.clientHeight + 1);
    for (let at = Number(app.dataset.tight ?? 0); at < TIGHTEST && isOver(); ) app.dataset.tight = String(++at);
  };
  useLayoutEffect(draw);
  useEffect(() => {
    const app = bar.current?.parentElement?.parentElement;
    const anew = () => {
      delete app?.dataset.tight;
      draw();
    };
    addEventListener('resize', anew);
    return () => {
      removeEventListener('resize', anew);
      delete app?.dataset.tight;
    };
  }, [bar]);
};
