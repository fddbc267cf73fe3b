const MINUS = '\u2212';

/** With its sign, U+2212 for minus, to so many decimals; `0` where they show nothing, `−∞` for no light. */
export function signed(value: number, decimals: number): string {
  if (!Number.isFinite(value)) return value < 0 ? `${MINUS}∞` : '+∞';
  const text = Math.abs(value).toFixed(decimals);
  if (Number(text) === 0) return '0';
  return `${value < 0 ? MINUS : '+'}${text}`;
}
