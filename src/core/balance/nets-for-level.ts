/**
 * A lamp that cannot be dimmed as far as is wanted: nets or scrims take half-stop steps (½, 1, 1½ …), and the dimmer what
 * is left. The level that is left over lies at or above the least level, by at most half a stop.
 */
export interface NetsForLevel {
  readonly nets_stops: number;
  readonly level: number;
}

/** RangeError unless 0 < level ≤ 1 and 0 < leastLevel ≤ 1. */
export function netsForLevel(level: number, leastLevel: number): NetsForLevel {
  if (!(level > 0 && level <= 1 && leastLevel > 0 && leastLevel <= 1)) {
    throw new RangeError(`level ${level}, least level ${leastLevel}: both must be above 0 and at most 1`);
  }
  const halfStops = Math.max(0, Math.ceil(2 * Math.log2(leastLevel / level) - 1e-9));
  const nets_stops = halfStops / 2;
  // Half a stop of nets may be more than is needed where the least level is close to full.
  return { nets_stops, level: Math.min(1, level * 2 ** nets_stops) };
}
