/** As soon as it is drawn; opens what it is folded into. */
const focusOn = (selector: string): void => {
  requestAnimationFrame(() => {
    const box = document.querySelector<HTMLElement>(selector);
    if (box === null) return;
    for (let around = box.parentElement; around !== null; around = around.parentElement)
      if (around instanceof HTMLDetailsElement) around.open = true;
    box.focus();
    if (box instanceof HTMLInputElement && box.dataset.key !== undefined) box.select();
  });
};

/** Puts the cursor into the first box at or within a place of the draft. */
export const focusAt = (path: string): void => {
  const at = CSS.escape(path);
  focusOn(
    `input[data-path="${at}"], textarea[data-path="${at}"], select[data-path="${at}"], :is(input, textarea, select)[data-path^="${at}/"]`,
  );
};

/** Puts the cursor into the name of a member, which is written first. */
export const focusKey = (path: string): void => focusOn(`[data-key="${CSS.escape(path)}"]`);

/** The button that adds to a list: where the cursor goes when something was removed from it. */
export const focusAdd = (path: string): void => {
  requestAnimationFrame(() => document.querySelector<HTMLElement>(`[data-add="${CSS.escape(path)}"]`)?.focus());
};
