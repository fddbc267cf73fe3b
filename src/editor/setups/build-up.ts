import type { MarkReport, MeterReport } from '../../scene/meter/meter-scene.ts';
import { type MixedReading, mixedReading } from '../stop-rule/mixed-reading.ts';

/** One lamp more: what it gives by itself, and what all have come to with it. Null where no mark is metered. */
export interface BuildUpStep {
  /** Null for the sky, which comes first. */
  readonly lamp: string | null;
  readonly alone: { readonly illuminance_lx: number; readonly stops: number } | null;
  /** The reading of the sky and of all lamps up to this one. */
  readonly soFar: MixedReading | null;
}

/**
 * The light of a scene built up lamp by lamp, from the parts of the readings: brightest at the mark first, lamps that give
 * the same there in the order of the document, which is the order of all where no mark is metered.
 */
export function buildUp(
  report: MeterReport | null,
  mark: string | undefined,
  lampsAlight: readonly string[],
): BuildUpStep[] {
  const metered = report?.marks.find(({ id }) => id === mark);
  if (!report || !metered) return [null, ...lampsAlight].map((lamp) => ({ lamp, alone: null, soFar: null }));
  const partOf = (id: string) => metered.lamps.find((lamp) => lamp.id === id);
  const order = lampsAlight.toSorted(
    (a, b) => (partOf(b)?.illuminance_lx ?? 0) - (partOf(a)?.illuminance_lx ?? 0),
  );
  const withFirst = (count: number) => mixedReading(metered, report.exposure, without(metered, order, count));
  const sky = withFirst(0);
  return [
    { lamp: null, alone: sky, soFar: sky },
    ...order.map((lamp, i) => ({
      lamp,
      alone: partOf(lamp) ?? { illuminance_lx: 0, stops: Number.NEGATIVE_INFINITY },
      soFar: withFirst(i + 1),
    })),
  ];
}

/** All lamps but the first so many. */
function without({ lamps }: MarkReport, order: readonly string[], count: number): ReadonlySet<string> {
  const left = new Set(order.slice(0, count));
  return new Set(
    lamps.flatMap(({ id, illuminance_lx }) => (left.has(id) || illuminance_lx === 0 ? [] : [id])),
  );
}
