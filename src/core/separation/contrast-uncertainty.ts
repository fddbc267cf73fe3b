/**
 * How far the inputs may put a contrast off, as ± stops: common practice, no source. What bears on both sides alike drops
 * out: a lamp that gives a share s_in of one side and s_out of the other moves the contrast by (s_in − s_out) of its own
 * photometric error. Lamps of one head are wrong together; haze glow and sky are each known to a stop. What a cloth and
 * what is behind it reflect is known to half a stop between them, and that does not drop out. In quadrature.
 */
import type { Lamp } from '../light-model/light-model.ts';
import { BOUNCE, HAZE, type LightBins, lampBin, luminance, skyBin } from '../transport/light-bins.ts';

const REFLECTANCE_STOPS = 0.5;
const HAZE_GLOW_STOPS = 1;
const SKY_STOPS = 1;

/** From the light of both sides by lamp and sender, in any one scale each. */
export function contrastInputUncertainty_stops(
  lamps: readonly Lamp[],
  inside: LightBins,
  outside: LightBins,
): number {
  const [i, o] = [sharesOf(inside), sharesOf(outside)];
  const difference = (bin: number) => i[bin / 3]! - o[bin / 3]!;
  const byHead = new Map<string, number>();
  let haze = 0;
  for (const [l, lamp] of lamps.entries()) {
    const own = difference(lampBin(l, BOUNCE)) + difference(lampBin(l, HAZE));
    byHead.set(lamp.head, (byHead.get(lamp.head) ?? 0) + own * lamp.photometryUncertainty_stops);
    haze += difference(lampBin(l, HAZE)) * HAZE_GLOW_STOPS;
  }
  const sky = difference(skyBin(lamps.length)) * SKY_STOPS;
  return Math.hypot(REFLECTANCE_STOPS, haze, sky, ...byHead.values());
}

/** Each bin's share of the luminance. */
function sharesOf(bins: LightBins): Float64Array {
  const parts = Float64Array.from({ length: bins.length / 3 }, (_, k) =>
    luminance(bins[3 * k]!, bins[3 * k + 1]!, bins[3 * k + 2]!),
  );
  const total = parts.reduce((sum, part) => sum + part, 0);
  return total > 0 ? parts.map((part) => part / total) : parts.fill(0);
}
