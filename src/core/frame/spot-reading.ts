import { stopsAbove } from '../exposure/stops.ts';
import { nearestHit } from '../geometry/ray-query.ts';
import { newHit } from '../geometry/ray-shape.ts';
import { confidence95 } from '../math/confidence.ts';
import { mixed32 } from '../math/kronecker.ts';
import { type RandomState, seededRandom, startPath } from '../math/random.ts';
import type { Vec3 } from '../math/vec3.ts';
import { errorInStops } from '../transport/direct.ts';
import { BOUNCE, HAZE, lampBin, luminance, newLightBins } from '../transport/light-bins.ts';
import { tracePath } from '../transport/path.ts';
import type { Tracer } from '../transport/tracer.ts';

/** What a spot meter at the camera reads along one line of sight. */
export interface SpotReading {
  readonly luminance_cd_m2: number;
  /** Over middle grey; −Infinity for no light. */
  readonly stops: number;
  /** ± stops, 95 %, of the computation. */
  readonly numerical_stops: number;
  /** Linear RGB, cd/m². */
  readonly rgb_linear: Vec3;
  /** Index of the owner of the first opaque thing on the line; −1 for the sky. */
  readonly owner: number;
  readonly parts: { readonly surface_cd_m2: number; readonly haze_cd_m2: number };
  /** Each lamp's share of the luminance, in the model's order. */
  readonly lamps_cd_m2: readonly number[];
}

export interface SpotOptions {
  /** Luminance of middle grey, cd/m². */
  readonly zero_cd_m2: number;
  readonly error_stops: number;
}

const BATCHES = 16;
const FIRST_PATHS = 64;
const MOST_PATHS = 1 << 13;
/** Darker than this against middle grey, no camera sees. */
const DARK_STOPS = -12;

/** Looks from `from_m` along a unit direction, pinhole, until the error is under the limit or the paths are used up. */
export function readSpot(tracer: Tracer, from_m: Vec3, direction: Vec3, options: SpotOptions): SpotReading {
  const lamps = tracer.model.lamps.length;
  const [ox, oy, oz] = from_m;
  const [dx, dy, dz] = direction;
  const randoms: RandomState[] = Array.from({ length: BATCHES }, (_, i) => seededRandom(mixed32(i + 101)));
  const total = newLightBins(lamps);
  const batches = new Float64Array(BATCHES);
  let paths = 0;
  let mean = 0;
  let error = Number.POSITIVE_INFINITY;
  for (let wanted = FIRST_PATHS; wanted <= MOST_PATHS; wanted *= 2) {
    for (let batch = 0; batch < BATCHES; batch++) {
      for (let i = paths; i < wanted; i++) {
        const bins = newLightBins(lamps);
        startPath(randoms[batch]!, i);
        tracePath(tracer, randoms[batch]!, { ox, oy, oz, dx, dy, dz, from: 'camera', density: 0 }, 1, bins);
        for (let k = 0; k < bins.length; k += 3) {
          for (let c = k; c < k + 3; c++) total[c]! += bins[c]!;
          batches[batch]! += luminance(bins[k]!, bins[k + 1]!, bins[k + 2]!);
        }
      }
    }
    paths = wanted;
    mean = batches.reduce((sum, batch) => sum + batch, 0) / (BATCHES * paths);
    error = confidence95(batches) / paths;
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
  const { model } = tracer;
  const luminanceIn = (bin: number) => luminance(total[bin]!, total[bin + 1]!, total[bin + 2]!) / n;
  const rgb = [0, 0, 0];
  for (let k = 0; k < total.length; k++) rgb[k % 3]! += total[k]! / n;
  const haze_cd_m2 = model.lamps.reduce((sum, _, i) => sum + luminanceIn(lampBin(i, HAZE)), 0);
  return {
    luminance_cd_m2,
    stops: stopsAbove(luminance_cd_m2, options.zero_cd_m2),
    numerical_stops: errorInStops(error, luminance_cd_m2),
    rgb_linear: [rgb[0]!, rgb[1]!, rgb[2]!],
    owner: ownerAlong(tracer, from_m, direction),
    parts: { surface_cd_m2: luminance_cd_m2 - haze_cd_m2, haze_cd_m2 },
    lamps_cd_m2: model.lamps.map((_, i) => luminanceIn(lampBin(i, BOUNCE)) + luminanceIn(lampBin(i, HAZE))),
  };
}

const hit = newHit();

function ownerAlong({ model }: Tracer, from_m: Vec3, direction: Vec3): number {
  const found = nearestHit(model.geometry, ...from_m, ...direction, 1e-5, 1e5, hit);
  return found ? model.parts[hit.shape]!.owner : -1;
}
