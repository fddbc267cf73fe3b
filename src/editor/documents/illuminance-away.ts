import { metresFromFeet } from '../../core/units/length.ts';
import { type IlluminanceUnit, readingText } from '../../paperwork/exposure-sheet.ts';
import type { LengthSystem } from '../store/editor-state.ts';

/** What a flat cell reads square on, far enough off that the face looks small: I/d², at a distance that one can picture. */
export function illuminanceAway(intensity_cd: number, unit: IlluminanceUnit, lengths: LengthSystem): string {
  const feet = 20;
  const [distance_m, words] = lengths === 'imperial' ? [metresFromFeet(feet), `${feet} ft`] : [5, '5 m'];
  return `${readingText(intensity_cd / distance_m ** 2, unit)} ${unit} at ${words}`;
}
