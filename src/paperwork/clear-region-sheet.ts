import type { ClearRegion, Way } from '../scene/mirror/clear-region.ts';
import { area_m2, difference, intersection } from '../scene/mirror/plan.ts';
import { PLANNING_AID } from './cautions.ts';
import { metresText } from './tape-text.ts';

/** Where a lamp may stand without a glint, as sentences ready to print. */
export interface ClearRegionSheet {
  readonly heading: string;
  readonly verdict: string;
  readonly lines: readonly string[];
  readonly footer: readonly string[];
}

export function clearRegionSheet(
  region: ClearRegion,
  lampName: string,
  nameOf: (id: string) => string,
): ClearRegionSheet {
  const { low_m, high_m, clear_m2, rectangle_m2, solids } = region;
  return {
    heading:
      `${lampName}, ${metresText(region.height_m)} up, aim kept, as camera ${region.camera} sees it` +
      `${solids === null ? '' : `; glints in ${solids.map(nameOf).join(', ')} only`}`,
    verdict: verdictOf(region),
    lines: [
      `Looked at: x ${coordinate(low_m[0])} to ${coordinate(high_m[0])}, z ${coordinate(low_m[1])} to ` +
        `${coordinate(high_m[1])}; clear: ${clear_m2.toFixed(0)} of ${rectangle_m2.toFixed(0)} m².`,
      ...(clear_m2 > 0 ? region.ways.map((way) => wayText(way, region)) : []),
      ...stopsLines(region),
      ...(region.keptOut.length > 0
        ? [`Kept out of, with all of its foot: ${region.keptOut.map(({ name }) => name).join(', ')}.`]
        : []),
    ],
    footer: [
      'Clear: none of its mirror images and none of their fringes is white in the frame. ' +
        `The border is good to a few centimetres where it is straight; corners are cut by up to ` +
        `${metresText(region.spacing_m / 2)}, and a patch narrower than ${metresText(4 * region.spacing_m)} may be missed.`,
      'Straight light only in the stops. A place on this plan says nothing of ground, power or people.',
      PLANNING_AID,
    ],
  };
}

function verdictOf({ clearHere, nearest, clear_m2 }: ClearRegion): string {
  if (clearHere) return 'It is clear where it stands.';
  if (clear_m2 === 0 || !nearest) return 'Nowhere in what was looked at is it clear at this height.';
  const [x, z] = nearest.at_m;
  return (
    `It is not clear where it stands; the nearest clear place is ${metresText(nearest.distance_m)} off, ` +
    `at x ${coordinate(x)}, z ${coordinate(z)}.`
  );
}

const WAYS: Readonly<Record<Way['way'], string>> = {
  back: 'Straight back',
  forward: 'Forward',
  left: 'To its left (from behind)',
  right: 'To its right',
};

/** No one sets a stand to less. */
const LEAST_STRETCH_m = 0.2;

function wayText(found: Way, { clearHere }: ClearRegion): string {
  const { way, reach_m } = found;
  const stretches = found.stretches.filter(({ from_m, to_m }) => to_m - from_m >= LEAST_STRETCH_m);
  if (stretches.length === 0) return `${WAYS[way]}: not clear within ${metresText(reach_m)}.`;
  const words = stretches.map(({ from_m, to_m }) => {
    const end =
      to_m > reach_m - 0.01 ? `${metresText(reach_m)}, the end of what was looked at` : metresText(to_m);
    return from_m === 0 && clearHere ? `up to ${end}` : `from ${metresText(from_m)} to ${end}`;
  });
  return `${WAYS[way]}: clear ${words.join(', and ')}.`;
}

function stopsLines({ stops, clear, clear_m2 }: ClearRegion): string[] {
  if (!stops || clear_m2 === 0) return [];
  const over = (threshold: number) =>
    stops.contours.find(({ atLeast_stops }) => atLeast_stops === threshold)?.region ?? [];
  const share_m2 = (low: number, high: number) =>
    area_m2(intersection(clear, difference(over(low), over(high)))).toFixed(0);
  return [
    `Light at ${stops.name} against now: of the clear part ${share_m2(-0.5, 0.5)} m² keeps it within half a stop, ` +
      `${share_m2(-1, 1)} m² within a stop.`,
  ];
}

function coordinate(v: number): string {
  return metresText(v).replace('-', '−');
}
