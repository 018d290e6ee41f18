/** Days before a check in which a last look is offered; its own day too. */
const LAST_DAYS = 3;

/** @param day study day @param checkDay study day of the check, or null */
export const isLastDays = (day: number, checkDay: number | null): boolean =>
  checkDay !== null && checkDay >= day && checkDay - day <= LAST_DAYS;
