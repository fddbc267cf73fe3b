import { batteryHours, coldBatteryHours } from '../../core/electrical/battery.ts';
import { fuelRate_L_per_h, fuelToBring_L } from '../../core/electrical/fuel.ts';
import { generatorRating_kVA, usualGenerator_kVA } from '../../core/electrical/generator.ts';
import { neutralCurrent_A } from '../../core/electrical/neutral.ts';
import type { PhaseCurrents } from '../../core/electrical/voltage-drop.ts';
import type { Head } from '../schema/head.ts';
import type { Supply } from '../schema/supply.ts';
import { type CableDrop, cableDrop, type DropRequest } from './cable-drop.ts';
import { type Inrush, inrushOf } from './inrush.ts';
import { drawOf, type LampLoad, type Phase } from './lamp-load.ts';
import { PHASES, phasesOf } from './phases.ts';
import { type Room, roomFor } from './room.ts';
import { limitOf } from './supply-limit.ts';

/** One supply with the lamps that are on, all at full output. Currents are those of the fullest phase. */
export interface SupplyReport {
  readonly id: string;
  readonly name: string;
  readonly kind: Supply['kind'];
  readonly volts: number;
  readonly load_W: number;
  readonly load_VA: number;
  readonly current_A: number;
  /** What may be drawn for hours; null where the document gives no breaker and no rating. */
  readonly limit_A: number | null;
  readonly limitSetBy: 'breaker' | 'rating' | null;
  readonly breaker_A: number | null;
  readonly over: boolean;
  /** Over the breaker itself, not only over what it carries for hours. */
  readonly trips: boolean;
  readonly drop_V: number | null;
  readonly drop_percent: number | null;
  readonly dropOver: boolean;
  readonly cable: CableDrop | null;
  /** Ids of the lamps that are on. */
  readonly lamps: readonly string[];
  /** Plugged in but off in this setup. */
  readonly lampsOff: readonly string[];
  /** The fullest phase with those on too. */
  readonly allOn_A: number;
  /** Null for a single phase. */
  readonly phases: readonly PhaseReport[] | null;
  readonly neutral_A: number | null;
  /** What LED heads draw at their levels with everything else at full, if they draw in proportion. Information only. */
  readonly dimmed_W: number;
  readonly inrush: Inrush | null;
  readonly room: readonly Room[];
  readonly generator: GeneratorReport | null;
  readonly battery: BatteryReport | null;
}

export interface PhaseReport {
  readonly phase: Phase;
  readonly current_A: number;
  readonly over: boolean;
  readonly lamps: readonly string[];
}

export interface GeneratorReport {
  readonly needed_kVA: number;
  readonly usual_kVA: number | null;
  readonly rating_kVA: number | null;
  readonly fuel_L_per_h: number;
  readonly fuel_L: number;
  readonly fuelWithReserve_L: number;
}

/** Hours that a battery lasts; null where nothing draws on it or its capacity is not given. */
export interface BatteryReport {
  readonly capacity_Wh: number | null;
  readonly hours: number | null;
  readonly cold_hours: number | null;
}

export interface SupplyRequest extends DropRequest {
  readonly hours: number;
  readonly fuel_L_per_kWh: number;
}

/** Heads of the document by name, and the level of each lamp by id. */
export interface Kit {
  readonly heads: ReadonlyMap<string, Head>;
  readonly levels: ReadonlyMap<string, number>;
}

export function supplyReport(
  supply: Supply,
  all: readonly LampLoad[],
  kit: Kit,
  request: SupplyRequest,
): SupplyReport {
  const connected = all.filter((load) => load.supply === supply.id);
  const loads = connected.filter((load) => load.on);
  const phases = byPhase(supply, loads);
  const currents_A = phases.map((phase) => sum(phase, VA) / supply.volts);
  const fullest_A = Math.max(...currents_A);
  const limit = limitOf(supply);
  const limit_A = limit?.limit_A ?? null;
  const breaker_A = supply.breaker_A ?? null;
  const isOver = (current_A: number) => limit_A !== null && current_A > limit_A + 1e-9;
  const cable = cableDrop(supply, currents_A, request);
  const load_W = sum(loads, W);
  const load_VA = sum(loads, VA);
  return {
    id: supply.id,
    name: supply.name ?? supply.id,
    kind: supply.kind,
    volts: supply.volts,
    load_W,
    load_VA,
    current_A: fullest_A,
    limit_A,
    limitSetBy: limit?.setBy ?? null,
    breaker_A,
    over: isOver(fullest_A),
    trips: breaker_A !== null && fullest_A > breaker_A + 1e-9,
    drop_V: cable?.drop_V ?? null,
    drop_percent: cable?.drop_percent ?? null,
    dropOver: cable?.over ?? false,
    cable,
    lamps: loads.map((load) => load.id),
    lampsOff: connected.filter((load) => !load.on).map((load) => load.id),
    allOn_A: Math.max(...byPhase(supply, connected).map((phase) => sum(phase, VA) / supply.volts)),
    phases:
      supply.phases === 3
        ? phases.map((phase, i) => ({
            phase: PHASES[i]!,
            current_A: currents_A[i]!,
            over: isOver(currents_A[i]!),
            lamps: phase.map((load) => load.id),
          }))
        : null,
    neutral_A: supply.phases === 3 ? neutralCurrent_A(currents_A as unknown as PhaseCurrents) : null,
    dimmed_W: sum(loads, (load) => W(load) * dimmedShare(load, kit)),
    inrush: inrushOf(
      phases.map((phase) =>
        phase.map((load) => ({
          headId: load.head,
          head: kit.heads.get(load.head)!,
          running_A: VA(load) / supply.volts,
        })),
      ),
      supply.breaker_A,
    ),
    room: roomOf(supply, kit, currents_A, limit_A, request),
    generator: supply.kind === 'generator' ? generatorReport(supply, load_W, load_VA, request) : null,
    battery: supply.kind === 'battery' ? batteryReport(supply, load_W) : null,
  };
}

const W = (load: LampLoad) => load.draw?.load_W ?? 0;
const VA = (load: LampLoad) => load.draw?.load_VA ?? 0;

function sum(loads: readonly LampLoad[], of: (load: LampLoad) => number): number {
  return loads.reduce((total, load) => total + of(load), 0);
}

/** The lamps of each phase: one list, or three. */
function byPhase(supply: Supply, loads: readonly LampLoad[]): LampLoad[][] {
  if (supply.phases !== 3) return [[...loads]];
  const phaseOf = phasesOf(loads);
  return PHASES.map((phase) => loads.filter((load) => phaseOf.get(load.id) === phase));
}

function dimmedShare(load: LampLoad, kit: Kit): number {
  const dims = kit.heads.get(load.head)?.electrical?.kind === 'led';
  return dims ? (kit.levels.get(load.id) ?? 1) : 1;
}

function roomOf(
  supply: Supply,
  kit: Kit,
  currents_A: readonly number[],
  limit_A: number | null,
  request: DropRequest,
): Room[] {
  return [...kit.heads].flatMap(([name, head]) => {
    const draw = drawOf(head, supply.kind === 'battery');
    if (!draw || draw.load_VA === 0) return [];
    return roomFor(name, draw.load_VA, supply, currents_A, limit_A, request);
  });
}

function generatorReport(
  supply: Supply,
  load_W: number,
  load_VA: number,
  { hours, fuel_L_per_kWh }: SupplyRequest,
): GeneratorReport {
  const needed_kVA = generatorRating_kVA([load_VA]);
  const fuel_L_per_h = fuelRate_L_per_h(load_W, fuel_L_per_kWh);
  return {
    needed_kVA,
    usual_kVA: usualGenerator_kVA(needed_kVA),
    rating_kVA: supply.rating_kVA ?? null,
    fuel_L_per_h,
    fuel_L: fuelToBring_L(fuel_L_per_h, hours, 0),
    fuelWithReserve_L: fuelToBring_L(fuel_L_per_h, hours),
  };
}

function batteryReport(supply: Supply, load_W: number): BatteryReport {
  const capacity_Wh = supply.capacity_Wh ?? null;
  const hours = capacity_Wh === null || load_W === 0 ? null : batteryHours(capacity_Wh, load_W);
  return { capacity_Wh, hours, cold_hours: hours === null ? null : coldBatteryHours(hours) };
}
