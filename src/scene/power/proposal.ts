import { assignLoads } from '../../core/electrical/assignment.ts';
import type { Supply } from '../schema/supply.ts';
import type { LampLoad, Phase } from './lamp-load.ts';
import { PHASES } from './phases.ts';
import { limitOf } from './supply-limit.ts';

/** Which lamp could go where, so that every supply stays within its limit. */
export interface Proposal {
  /** Whether every lamp that is on finds a place. */
  readonly fits: boolean;
  /** Whether it is known that nothing better exists; otherwise the search was cut short. */
  readonly proven: boolean;
  /** Lamps that would be plugged in elsewhere, or for the first time. */
  readonly moves: readonly Move[];
  /** Lamps for which no supply has room. */
  readonly left: readonly string[];
  /** All lamps that are on where they would be, phases named. */
  readonly loads: readonly LampLoad[];
}

export interface Move {
  readonly lamp: string;
  readonly from: string | null;
  readonly to: string;
  readonly phase: Phase | null;
}

interface Circuit {
  readonly supply: Supply;
  readonly phase: Phase | null;
  readonly capacity_VA: number;
}

/** A lamp that runs at one voltage may be moved to one this near: 220 and 240, 110 and 120. */
const LIKE_VOLTS = 0.12;

/**
 * The assignment of the lamps that are on which leaves least without power, moves fewest, and fills evenly. Batteries, and
 * supplies whose limit is not given, keep what they have and take nothing. Null where no supply could take anything.
 */
export function proposalFor(supplies: readonly Supply[], all: readonly LampLoad[]): Proposal | null {
  const circuits = supplies.flatMap(circuitsOf);
  if (circuits.length === 0) return null;
  const open = new Set(circuits.map((circuit) => circuit.supply.id));
  const movable = all.filter(
    (load) => load.on && (load.draw?.load_VA ?? 0) > 0 && (load.supply === null || open.has(load.supply)),
  );
  const { circuits: chosen, proven } = assignLoads(
    movable.map((load) => ({
      load_VA: load.draw!.load_VA,
      changes: circuits.map((circuit) => changeTo(circuit, load, supplies)),
    })),
    circuits.map((circuit) => circuit.capacity_VA),
  );
  const placeOf = new Map(
    movable.map((load, i) => [load.id, chosen[i] === null ? null : circuits[chosen[i]!]!]),
  );
  const moves = movable.flatMap((load): Move[] => {
    const place = placeOf.get(load.id);
    if (!place || changeTo(place, load, supplies) !== 1) {
      if (!place || load.supply !== null) return [];
    }
    return [{ lamp: load.id, from: load.supply, to: place.supply.id, phase: place.phase }];
  });
  const left = movable.filter((load) => placeOf.get(load.id) === null).map((load) => load.id);
  return {
    fits: left.length === 0,
    proven,
    moves,
    left,
    loads: all.map((load) => {
      const place = placeOf.get(load.id);
      if (place === undefined) return load;
      return { ...load, supply: place?.supply.id ?? null, phase: place?.phase ?? null };
    }),
  };
}

function circuitsOf(supply: Supply): Circuit[] {
  const limit = limitOf(supply);
  if (supply.kind === 'battery' || limit === null) return [];
  const capacity_VA = limit.limit_A * supply.volts;
  if (supply.phases !== 3) return [{ supply, phase: null, capacity_VA }];
  return PHASES.map((phase) => ({ supply, phase, capacity_VA }));
}

/** 0 where the lamp is already or has no place yet, 1 where it would be moved, null where its voltage is another. */
function changeTo(circuit: Circuit, load: LampLoad, supplies: readonly Supply[]): 0 | 1 | null {
  const now = supplies.find((supply) => supply.id === load.supply);
  if (!now) return 0;
  if (now === circuit.supply) return load.phase === null || load.phase === circuit.phase ? 0 : 1;
  return Math.abs(now.volts - circuit.supply.volts) <= LIKE_VOLTS * now.volts ? 1 : null;
}
