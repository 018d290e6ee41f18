import type { Comparison, Share } from '../../memory/calibration/reliability.ts';
import { percent, plural } from '../words.ts';

const range = ({ low, high }: Share): string => `${Math.round(low * 100)} to ${percent(high)}`;

/** "Predicted 90 %, was 88 % (240 items; 83 to 92 % would agree)." Null where there is nothing. */
export const comparisonWords = (told: Comparison): string | null => {
  if (told.predicted === null || told.share === null) return null;
  const { predicted, share, of, agrees } = told;
  const verdict = agrees ? '' : predicted > share ? ' The prediction was too high.' : ' The prediction was too low.';
  return `Predicted ${percent(predicted)}, was ${percent(share)} (${plural(of, 'item')}; ${range(told)} would agree).${verdict}`;
};

/** "45 of 50 items right: 90 % (95 % interval 79 to 96 %)". Null where there is nothing. */
export const sureWords = (told: Share): string | null =>
  told.share === null
    ? null
    : `${told.right} of ${plural(told.of, 'item')} right: ${percent(told.share)} (95 % interval ${range(told)}).`;
