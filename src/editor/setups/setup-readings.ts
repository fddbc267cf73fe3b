import { exposureSheet, type IlluminanceUnit } from '../../paperwork/exposure-sheet.ts';
import type { MeterReport } from '../../scene/meter/meter-scene.ts';

/** What a mark reads in a setup, in the words of the exposure sheet: "Ada, face", "+0⅓", "±0.5". */
export interface SetupReading {
  readonly id: string;
  readonly name: string;
  readonly stops: string;
  readonly plusMinus: string;
}

export function setupReadings(report: MeterReport): SetupReading[] {
  return exposureSheet(report).rows.map(({ id, name, stops, plusMinus }) => ({ id, name, stops, plusMinus }));
}

/**
 * What the stops of several setups mean, each convention once. A camera's zero goes with its exposure: where those differ it is
 * said that each has its own.
 */
export function readingConventions(reports: readonly MeterReport[], unit: IlluminanceUnit): string[] {
  const footers = reports.map((report) => exposureSheet(report, unit).footer);
  const zeros = new Set(footers.map(([zero]) => zero!));
  const others = new Set(footers.flatMap(([, ...sentences]) => sentences));
  return [
    zeros.size === 1
      ? [...zeros][0]!
      : 'Each frame has a zero of its own: the exposure that stands under it. Stops are from that zero.',
    ...others,
  ];
}
