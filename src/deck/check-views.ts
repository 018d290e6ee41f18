import type { Checking } from '../subjects/check.ts';

export function checkViews(_: Checking): void {}
