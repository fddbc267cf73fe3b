import { feetAndInchesFromMetres } from '../core/units/length.ts';

/** A length for a tape measure in either unit: "5.1 m (16 ft 9 in)". To the centimetre under 10 m, else to the decimetre. */
export function tapeText(length_m: number): string {
  return `${metresText(length_m)} (${feetText(length_m)})`;
}

export function metresText(length_m: number): string {
  return `${Number(length_m.toFixed(Math.abs(length_m) < 10 ? 2 : 1))} m`;
}

function feetText(length_m: number): string {
  const { feet, inches } = feetAndInchesFromMetres(length_m);
  const whole = Math.floor(inches);
  const half = inches > whole ? '½' : '';
  const inchText = whole === 0 && half ? half : `${whole}${half}`;
  return feet === 0 ? `${inchText} in` : `${feet} ft ${inchText} in`;
}
