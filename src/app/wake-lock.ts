/**
 * Keeps the screen lit (Screen Wake Lock API, W3C) while the page is seen: a browser lets go when it is hidden, so that
 * it is asked again when it comes back. Without the interface, or where the device says no (a low battery), nothing
 * happens.
 * @returns lets the screen go dark again
 */
export const holdAwake = (
  { wakeLock }: Pick<Navigator, 'wakeLock'> = navigator,
  page: Pick<Document, 'visibilityState' | 'addEventListener' | 'removeEventListener'> = document,
): (() => void) => {
  if (wakeLock === undefined) return () => undefined;
  let over = false;
  let held: WakeLockSentinel | null = null;
  let asking = false;
  const hold = async (): Promise<void> => {
    if (over || asking || page.visibilityState !== 'visible' || held?.released === false) return;
    asking = true;
    try {
      held = await wakeLock.request('screen');
      // Called off while the device was asked.
      if (over) await held.release();
    } catch {
      held = null;
    } finally {
      asking = false;
    }
  };
  const again = (): void => void hold();
  page.addEventListener('visibilitychange', again);
  again();
  return () => {
    over = true;
    page.removeEventListener('visibilitychange', again);
    held?.release().catch(() => undefined);
  };
};
