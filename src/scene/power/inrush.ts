import { QUICK_TRIP_MULTIPLE } from '../../core/electrical/load.ts';
import type { Head } from '../schema/head.ts';

/** What switching on draws for an instant, on the phase where it is most. */
export interface Inrush {
  /** All lamps switched on at one stroke. */
  readonly together_A: number;
  /** One at a time: the worst lamp on top of all others running. */
  readonly oneByOne_A: number;
  /** From here on a quick breaker may open at once; null where no breaker is given. */
  readonly quickTrip_A: number | null;
  /** Heads whose inrush is not given: the two currents above hold only their running current. */
  readonly unknown: readonly string[];
}

export interface SwitchedLamp {
  readonly headId: string;
  readonly head: Head;
  readonly running_A: number;
}

/** Of the lamps of each phase; null where there are none. */
export function inrushOf(
  phases: readonly (readonly SwitchedLamp[])[],
  breaker_A: number | undefined,
): Inrush | null {
  const lamps = phases.flat();
  if (lamps.length === 0) return null;
  const surge = (lamp: SwitchedLamp) => Math.max(lamp.running_A, lamp.head.electrical?.inrush_A ?? 0);
  const together = phases.map((phase) => phase.reduce((sum, lamp) => sum + surge(lamp), 0));
  const oneByOne = phases.map((phase) => {
    const running = phase.reduce((sum, lamp) => sum + lamp.running_A, 0);
    return Math.max(0, ...phase.map((lamp) => running - lamp.running_A + surge(lamp)));
  });
  const unknown = lamps.filter((lamp) => lamp.head.electrical?.inrush_A === undefined);
  return {
    together_A: Math.max(...together),
    oneByOne_A: Math.max(...oneByOne),
    quickTrip_A: breaker_A === undefined ? null : QUICK_TRIP_MULTIPLE * breaker_A,
    unknown: [...new Set(unknown.map((lamp) => lamp.headId))],
  };
}
