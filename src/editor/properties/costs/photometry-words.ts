import type { Head } from '../../../scene/schema/head.ts';

/** What is known of a head's light, short: "140 000 cd, 50°". */
export function photometryWords({ photometry }: Head): string {
  switch (photometry.kind) {
    case 'beam':
      return `${thousands(photometry.peak_cd)} cd, ${photometry.beam_deg}°`;
    case 'metered':
      return `${thousands(photometry.illuminance_lx)} lx at ${photometry.distance_m} m, ${photometry.beam_deg}°`;
    case 'lumens':
      return `${thousands(photometry.flux_lm)} lm, ${photometry.beam_deg}°`;
    case 'diffuse':
      return `${thousands(photometry.flux_lm)} lm, soft`;
    case 'file':
      return photometry.file;
  }
}

/** Three figures, in groups of three. */
export function thousands(value: number): string {
  const rounded = Number(value.toPrecision(3));
  if (Math.abs(rounded) < 10_000) return String(rounded);
  return rounded.toFixed(0).replace(/\B(?=(\d{3})+$)/g, '\u202f');
}
