import { CRITICAL_WEIGHT } from '../day-order.ts';

/** How much less uneven recall is worth: of two plans of the same mean the one is better that leaves nothing behind. */
const EVEN_HANDED = 3;
/** As much then depends on a critical item at its target of 0.97 as on another at 0.9: 2 × 10 × 0.03 = 2 × 3 × 0.1. */
const EVEN_HANDED_CRITICAL = 10;

/** @param critical 1 or 0 */
export const weightOf = (critical: number): number => (critical === 1 ? CRITICAL_WEIGHT : 1);

/** @param critical 1 or 0 */
export const bendOf = (critical: number): number => (critical === 1 ? EVEN_HANDED_CRITICAL : EVEN_HANDED);

/** Reward of a recall chance on the check day: R − bend (1 − R)². */
export const rewardOf = (recall: number, bend: number): number => recall - bend * (1 - recall) ** 2;
