import { METRES_PER_FOOT } from '../../../core/units/length.ts';
import type { LengthSystem } from '../../store/editor-state.ts';

/** Spacing of the drawn lines: the labelled ones, and those between them that things snap to. */
export interface GridSpacing {
  readonly major_m: number;
  readonly minor_m: number;
}

const INCH_m = METRES_PER_FOOT / 12;

/** 1, 2, 5 of every decade, each with the parts that it divides into evenly. */
const METRIC: readonly GridSpacing[] = [0.01, 0.1, 1, 10, 100].flatMap((decade) => [
  { major_m: 0.5 * decade, minor_m: 0.1 * decade },
  { major_m: decade, minor_m: 0.2 * decade },
  { major_m: 2 * decade, minor_m: 0.5 * decade },
]);

const inches = (major_in: number, minor_in: number): GridSpacing => ({
  major_m: major_in * INCH_m,
  minor_m: minor_in * INCH_m,
});
const IMPERIAL: readonly GridSpacing[] = [
  inches(1, 0.25),
  inches(3, 1),
  inches(6, 1),
  inches(12, 3),
  inches(24, 6),
  inches(60, 12),
  inches(120, 24),
  inches(240, 60),
  inches(600, 120),
  inches(1200, 240),
  inches(2400, 600),
  inches(6000, 1200),
];

const LEAST_MAJOR_px = 64;

/** The finest grid whose labels still have room. */
export function gridSpacing(scale_px_m: number, lengths: LengthSystem): GridSpacing {
  const series = lengths === 'metric' ? METRIC : IMPERIAL;
  return series.find(({ major_m }) => major_m * scale_px_m >= LEAST_MAJOR_px) ?? series.at(-1)!;
}

/** Multiples of the spacing from one coordinate to the other. */
export function gridLines(from_m: number, to_m: number, spacing_m: number): readonly number[] {
  const first = Math.ceil(from_m / spacing_m - 1e-9);
  const count = Math.max(0, Math.floor(to_m / spacing_m + 1e-9) - first + 1);
  return Array.from({ length: count }, (_, i) => (first + i) * spacing_m + 0);
}
