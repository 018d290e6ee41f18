import type { Page } from 'playwright-core';

/** What of a run under way is out of sight, CSS px: beyond the window, beneath the buttons, or too narrow to be read. */
export const standing = (page: Page) =>
  page.evaluate(() => {
    const box = (one: Element | null) => (one as Element).getBoundingClientRect();
    const foot = box(document.querySelector('.foot'));
    const buttons = [...document.querySelectorAll('.paced-buttons button')];
    const lines = box(document.querySelector('.paced-lines'));
    const beside = foot.left > 1;
    return {
      scrolls: document.documentElement.scrollHeight - document.documentElement.clientHeight,
      buttons: buttons.length,
      out: buttons.filter((one) => box(one).top < foot.top - 0.5 || box(one).bottom > innerHeight + 0.5).length,
      least: Math.min(...buttons.flatMap((one) => [box(one).width, box(one).height])),
      room: Math.min(...buttons.map((one) => box(one).right - box(one.lastElementChild).left)),
      figures: box(document.querySelector('.paced-figures')).bottom <= (beside ? innerHeight : foot.top),
      calls: (beside ? innerHeight : foot.top) - lines.top,
    };
  });
