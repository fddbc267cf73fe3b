const THIRDS = ['', '⅓', '⅔'];
const MINUS = '\u2212';

/**
 * Stops as they are spoken on set, to the nearest third: '+1⅔', '−0⅓', '0', and '−∞' for no light. Halfway goes away from
 * zero on both sides. The minus sign is U+2212. RangeError when `stops` is not a number.
 */
export function thirdsText(stops: number): string {
  if (Number.isNaN(stops)) throw new RangeError('stops is NaN; it must be a number');
  const sign = stops < 0 ? MINUS : '+';
  if (!Number.isFinite(stops)) return `${sign}∞`;
  const thirds = Math.round(Math.abs(stops) * 3);
  return thirds === 0 ? '0' : `${sign}${Math.floor(thirds / 3)}${THIRDS[thirds % 3]}`;
}
