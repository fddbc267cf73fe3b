import { diffused } from '../../core/photometry/diffused.ts';
import type { Distribution } from '../../core/photometry/distribution.ts';
import type { Filter } from '../schema/filter.ts';

/** Kept for each distribution: enough for the lamps of a scene, few enough for a spread that is being dragged. */
const MAX_KEPT = 16;

/** What diffusion has made of distributions before, which takes as long as a frame of a drag or several. */
const known = new WeakMap<Distribution, Map<string, Distribution>>();

/** A lamp's distribution behind a stack of filters: each diffusion widens what the one before has left. Same flux. */
export function behindDiffusion(distribution: Distribution, filters: readonly Filter[]): Distribution {
  let light = distribution;
  for (const filter of filters) {
    if (filter.kind === 'diffusion') light = remembered(light, filter.direct, filter.spread_deg);
  }
  return light;
}

function remembered(distribution: Distribution, direct: number, spread_deg: number): Distribution {
  const kept = known.get(distribution) ?? new Map<string, Distribution>();
  known.set(distribution, kept);
  const key = `${direct} ${spread_deg}`;
  const widened = kept.get(key) ?? diffused(distribution, direct, spread_deg);
  kept.delete(key);
  kept.set(key, widened);
  const [oldest] = kept.keys();
  if (kept.size > MAX_KEPT && oldest !== undefined) kept.delete(oldest);
  return widened;
}
