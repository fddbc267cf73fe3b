import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { CandelaTable, Distribution } from '../../../src/core/photometry/distribution.ts';
import { intensityToward } from '../../../src/core/photometry/intensity.ts';
import { type PhotometricFile, readPhotometricFile } from '../../../src/core/photometry/photometric-file.ts';

const FOLDER = new URL('../../fixtures/photometry/', import.meta.url);
const RADIANS = Math.PI / 180;

export function fixtureText(path: string, encoding: 'latin1' | 'utf8' = 'latin1'): string {
  return readFileSync(fileURLToPath(new URL(path, FOLDER)), encoding);
}

/** One of the files with known content. */
export function synthetic(name: string, lampSet = 0): PhotometricFile {
  return readPhotometricFile(name, fixtureText(`synthetic/${name}`), lampSet);
}

/** Intensity in type C angles: γ from the axis, C from right toward top. */
export function towardC(distribution: Distribution, c_deg: number, gamma_deg: number): number {
  const [c, g] = [c_deg * RADIANS, gamma_deg * RADIANS];
  return intensityToward(distribution, Math.sin(g) * Math.cos(c), Math.sin(g) * Math.sin(c), Math.cos(g));
}

/** Intensity in type A angles: H turns about the top, V rises. */
export function towardA(distribution: Distribution, h_deg: number, v_deg: number): number {
  const [h, v] = [h_deg * RADIANS, v_deg * RADIANS];
  return intensityToward(distribution, Math.cos(v) * Math.sin(h), Math.sin(v), Math.cos(v) * Math.cos(h));
}

/** Intensity in type B angles: V turns about the right, H leans out. */
export function towardB(distribution: Distribution, h_deg: number, v_deg: number): number {
  const [h, v] = [h_deg * RADIANS, v_deg * RADIANS];
  return intensityToward(distribution, Math.sin(h), Math.cos(h) * Math.sin(v), Math.cos(h) * Math.cos(v));
}

export function table(
  goniometry: CandelaTable['goniometry'],
  vertical_deg: readonly number[],
  horizontal_deg: readonly number[],
  candela: (h_deg: number, v_deg: number) => number,
): CandelaTable {
  return {
    kind: 'table',
    goniometry,
    vertical_deg: Float64Array.from(vertical_deg),
    horizontal_deg: Float64Array.from(horizontal_deg),
    candela: Float64Array.from(horizontal_deg.flatMap((h) => vertical_deg.map((v) => candela(h, v)))),
  };
}

export function range(from: number, to: number, step: number): number[] {
  return Array.from({ length: Math.round((to - from) / step) + 1 }, (_, i) => from + i * step);
}
