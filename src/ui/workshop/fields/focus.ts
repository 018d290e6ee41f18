/** Puts the cursor into the first box at or within a place of the draft, and opens what it is folded into. */
export const focusAt = (path: string): void => {
  requestAnimationFrame(() => {
    const at = CSS.escape(path);
    const box = document.querySelector<HTMLElement>(
      `input[data-path="${at}"], textarea[data-path="${at}"], select[data-path="${at}"], :is(input, textarea, select)[data-path^="${at}/"]`,
    );
    if (box === null) return;
    for (let around = box.parentElement; around !== null; around = around.parentElement)
      if (around instanceof HTMLDetailsElement) around.open = true;
    box.focus();
  });
};

/** The button that adds to a list: where the cursor goes when something was removed from it. */
export const focusAdd = (path: string): void => {
  requestAnimationFrame(() => document.querySelector<HTMLElement>(`[data-add="${CSS.escape(path)}"]`)?.focus());
};
