import { stopsAbove } from '../exposure/stops.ts';
import { nearestHit } from '../geometry/ray-query.ts';
import { newHit } from '../geometry/ray-shape.ts';
import { hazeLoss_stops } from '../haze/extinction.ts';
import { hazedLength_m } from '../haze/transmittance.ts';
import { confidence95 } from '../math/confidence.ts';
import { mixed32 } from '../math/kronecker.ts';
import { type RandomState, seededRandom, startPath } from '../math/random.ts';
import { add, length, scale, subtract, type Vec3 } from '../math/vec3.ts';
import { errorInStops } from '../transport/direct.ts';
import { BOUNCE, HAZE, lampBin, luminance, newLightBins, skyBin } from '../transport/light-bins.ts';
import { tracePath } from '../transport/path.ts';
import { newSeenLamp, seesLamp } from '../transport/seen-lamp.ts';
import { FAR_m, type Tracer } from '../transport/tracer.ts';
import { spotUncertainty_stops } from './spot-uncertainty.ts';

/** What a spot meter at the camera reads along one line of sight. */
export interface SpotReading {
  readonly luminance_cd_m2: number;
  /** Over middle grey; −Infinity for no light. */
  readonly stops: number;
  /** Both ± stops: the 95 % interval of the computation, and what the inputs may be off. */
  readonly uncertainty: { readonly numerical_stops: number; readonly input_stops: number };
  /** Linear RGB, cd/m². */
  readonly rgb_linear: Vec3;
  readonly seen: Seen;
  readonly parts: { readonly surface_cd_m2: number; readonly haze_cd_m2: number };
  /** Each lamp's share of the luminance, in the model's order. */
  readonly lamps_cd_m2: readonly number[];
}

/** The first thing on a line of sight, a pane of glass included, and how far off it is. */
export type Seen =
  | { readonly kind: 'thing'; readonly owner: number; readonly distance_m: number }
  /** A lamp's lit face; an index into the model's lamps. */
  | { readonly kind: 'lamp'; readonly lamp: number; readonly distance_m: number }
  | { readonly kind: 'sky' };

export interface SpotOptions {
  /** Luminance of middle grey, cd/m². */
  readonly zero_cd_m2: number;
  readonly error_stops: number;
  /** Of the random numbers; 1 if left out. */
  readonly seed?: number;
}

const BATCHES = 16;
const FIRST_PATHS = 256;
const MOST_PATHS = 1 << 13;
/** Darker than this against middle grey, no camera sees. */
const DARK_STOPS = -12;
/**
 * The rule of three: of a kind of path that has not come up among n, there may be 3/n (95 %; Hanley & Lippman-Hand, JAMA 249,
 * 1983). Where a few bright paths bring much of the light, in haze and in gloss, the batches alone do not show how much
 * those bring that have not come up yet; so three as bright as the brightest are added to the error.
 */
const UNSEEN_PATHS = 3;

/** Looks from `from_m` along a unit direction, pinhole, until the error is under the limit or the paths are used up. */
export function readSpot(tracer: Tracer, from_m: Vec3, direction: Vec3, options: SpotOptions): SpotReading {
  const lamps = tracer.model.lamps.length;
  const [ox, oy, oz] = from_m;
  const [dx, dy, dz] = direction;
  const randoms: RandomState[] = Array.from({ length: BATCHES }, (_, i) =>
    seededRandom(mixed32((options.seed ?? 1) * BATCHES + i)),
  );
  const total = newLightBins(lamps);
  const batches = new Float64Array(BATCHES);
  let paths = 0;
  let mean = 0;
  let brightest = 0;
  let error = Number.POSITIVE_INFINITY;
  for (let wanted = FIRST_PATHS; wanted <= MOST_PATHS; wanted *= 2) {
    for (let batch = 0; batch < BATCHES; batch++) {
      for (let i = paths; i < wanted; i++) {
        const bins = newLightBins(lamps);
        startPath(randoms[batch]!, i);
        tracePath(tracer, randoms[batch]!, { ox, oy, oz, dx, dy, dz, from: 'camera', density: 0 }, 1, bins);
        let path_cd_m2 = 0;
        for (let k = 0; k < bins.length; k += 3) {
          for (let c = k; c < k + 3; c++) total[c]! += bins[c]!;
          path_cd_m2 += luminance(bins[k]!, bins[k + 1]!, bins[k + 2]!);
        }
        batches[batch]! += path_cd_m2;
        brightest = Math.max(brightest, path_cd_m2);
      }
    }
    paths = wanted;
    mean = batches.reduce((sum, batch) => sum + batch, 0) / (BATCHES * paths);
    error = confidence95(batches) / paths + (UNSEEN_PATHS * brightest) / (BATCHES * paths);
    if (errorInStops(error, mean) <= options.error_stops) break;
    if (mean + error < options.zero_cd_m2 * 2 ** DARK_STOPS) break;
  }
  return readingFrom(tracer, total, BATCHES * paths, Math.max(0, mean), error, options, from_m, direction);
}

function readingFrom(
  tracer: Tracer,
  total: Float64Array,
  n: number,
  luminance_cd_m2: number,
  error: number,
  options: SpotOptions,
  from_m: Vec3,
  direction: Vec3,
): SpotReading {
  const { lamps } = tracer.model;
  const luminanceIn = (bin: number) => luminance(total[bin]!, total[bin + 1]!, total[bin + 2]!) / n;
  const rgb = [0, 0, 0];
  for (let k = 0; k < total.length; k++) rgb[k % 3]! += total[k]! / n;
  const byLamp = lamps.map((_, i) => ({
    surface_cd_m2: luminanceIn(lampBin(i, BOUNCE)),
    haze_cd_m2: luminanceIn(lampBin(i, HAZE)),
  }));
  const haze_cd_m2 = byLamp.reduce((sum, lamp) => sum + lamp.haze_cd_m2, 0);
  const surface_cd_m2 = luminance_cd_m2 - haze_cd_m2;
  const seen = seenAlong(tracer, from_m, direction);
  return {
    luminance_cd_m2,
    stops: stopsAbove(luminance_cd_m2, options.zero_cd_m2),
    uncertainty: {
      numerical_stops: errorInStops(error, luminance_cd_m2),
      input_stops: spotUncertainty_stops(
        lamps.map(({ head, photometryUncertainty_stops, frame }, i) => ({
          head,
          ...byLamp[i]!,
          photometry_stops: photometryUncertainty_stops,
          hazeLoss_stops: lossByWayOf(seen, tracer, frame.origin_m, from_m, direction),
        })),
        luminanceIn(skyBin(lamps.length)),
        seen.kind === 'thing' ? surface_cd_m2 : 0,
      ),
    },
    rgb_linear: [rgb[0]!, rgb[1]!, rgb[2]!],
    seen,
    parts: { surface_cd_m2, haze_cd_m2 },
    lamps_cd_m2: byLamp.map((lamp) => lamp.surface_cd_m2 + lamp.haze_cd_m2),
  };
}

const hit = newHit();
const seenLamp = newSeenLamp();

function seenAlong(tracer: Tracer, from_m: Vec3, direction: Vec3): Seen {
  const { geometry, parts } = tracer.model;
  const found = nearestHit(geometry, ...from_m, ...direction, 1e-5, FAR_m, hit);
  if (seesLamp(tracer, ...from_m, ...direction, found ? hit.t : FAR_m, null, seenLamp)) {
    return { kind: 'lamp', lamp: seenLamp.lamp, distance_m: seenLamp.d_m };
  }
  if (!found) return { kind: 'sky' };
  return { kind: 'thing', owner: parts[hit.shape]!.owner, distance_m: hit.t };
}

/** What haze takes from a lamp's light on its straight way to what is seen, and from there to the eye. */
function lossByWayOf(seen: Seen, { model }: Tracer, lamp_m: Vec3, from_m: Vec3, direction: Vec3): number {
  if (!model.haze || seen.kind === 'sky') return 0;
  const point_m = add(from_m, scale(direction, seen.distance_m));
  const toLamp = subtract(lamp_m, point_m);
  const d = length(toLamp);
  const before = hazedLength_m(model.haze, ...from_m, ...direction, seen.distance_m);
  const beyond = d > 0 ? hazedLength_m(model.haze, ...point_m, ...scale(toLamp, 1 / d), d) : 0;
  return hazeLoss_stops(model.haze.extinction_per_m, before + beyond);
}
