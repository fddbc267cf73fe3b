import { lengthText } from '../../figures/length-text.ts';
import type { LengthSystem } from '../../store/editor-state.ts';

/** A length that follows from figures which are no better known: to three digits, under a metre to the centimetre. */
export function aboutLength(length_m: number, system: LengthSystem): string {
  const about_m = Math.abs(length_m) < 1 ? Number(length_m.toFixed(2)) : Number(length_m.toPrecision(3));
  return lengthText(about_m, system);
}
