/** As a `ref`: what comes up in the place of what had the cursor takes it. */
export const takeFocus = (element: HTMLElement | null): void => element?.focus();
