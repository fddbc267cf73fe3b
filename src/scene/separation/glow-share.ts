import type { LightModel } from '../../core/light-model/light-model.ts';
import { HAZE, type LightBins, lampBin, luminance } from '../../core/transport/light-bins.ts';

/** Part of a reading that is glow of the haze, of all lamps. */
export function glowShare({ lamps }: LightModel, bins: LightBins): number {
  let whole = 0;
  for (let bin = 0; bin < bins.length; bin += 3) whole += luminanceIn(bins, bin);
  const glow = lamps.reduce((sum, _, lamp) => sum + luminanceIn(bins, lampBin(lamp, HAZE)), 0);
  return whole > 0 ? glow / whole : 0;
}

export function lampOfGlow({ lamps }: LightModel, bins: LightBins): { id: string; name: string } | null {
  const glows = lamps.map((_, lamp) => luminanceIn(bins, lampBin(lamp, HAZE)));
  const most = Math.max(0, ...glows);
  const lamp = lamps[glows.indexOf(most)];
  return most > 0 && lamp ? { id: lamp.id, name: lamp.name } : null;
}

function luminanceIn(bins: LightBins, bin: number): number {
  return luminance(bins[bin]!, bins[bin + 1]!, bins[bin + 2]!);
}
