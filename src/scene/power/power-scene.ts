import { FUEL_L_PER_kWh } from '../../core/electrical/fuel.ts';
import { generatorRating_kVA, usualGenerator_kVA } from '../../core/electrical/generator.ts';
import { LIGHTING_DROP_LIMIT_PERCENT } from '../../core/electrical/voltage-drop.ts';
import { entryNamed, LIBRARY, type Library } from '../library/library.ts';
import type { MeterReport } from '../meter/meter-scene.ts';
import type { SceneDocument } from '../schema/document.ts';
import type { Head } from '../schema/head.ts';
import { type LampLoad, lampLoads } from './lamp-load.ts';
import { type Failure, type Loss, lossesOf } from './loss.ts';
import { type Move, proposalFor } from './proposal.ts';
import { type Kit, type SupplyReport, type SupplyRequest, supplyReport } from './supply-report.ts';

/** What the lamps of a scene draw and whether its supplies carry it: the answer of `keyfall power --json`. */
export interface PowerReport {
  readonly keyfall: 1;
  readonly title: string;
  readonly setup: string | null;
  readonly request: SupplyRequest;
  readonly supplies: readonly SupplyReport[];
  readonly lamps: readonly PoweredLamp[];
  /** On, but plugged into nothing. */
  readonly unplugged: readonly string[];
  /** On, but their heads say nothing of what they draw, so that every sum is short of them. */
  readonly unknown: readonly string[];
  readonly total: { readonly load_W: number; readonly load_VA: number };
  /** The least rating of one generator for every lamp that is on, and the usual set above it. */
  readonly generator_kVA: number;
  readonly usualGenerator_kVA: number | null;
  /** Another plugging that fits; null where all lamps have supplies and these are within their limits. */
  readonly proposal: PowerProposal | null;
  /** Null unless it was asked for. */
  readonly ifLost: readonly Loss[] | null;
}

/** A lamp of the scene and what it draws at full output. */
export interface PoweredLamp {
  readonly id: string;
  readonly name: string;
  readonly head: string;
  readonly headName: string;
  readonly on: boolean;
  readonly level: number;
  readonly supply: string | null;
  readonly phase: number | null;
  readonly load_W: number | null;
  readonly load_VA: number | null;
  readonly current_A: number | null;
  readonly powerFactor: number | null;
  readonly powerFactorAssumed: boolean;
  readonly kind: NonNullable<Head['electrical']>['kind'] | null;
  /** Minutes before it strikes again when hot: 0 at once, null where not given. */
  readonly restrike_min: number | null;
}

export interface PowerProposal {
  readonly fits: boolean;
  readonly proven: boolean;
  readonly moves: readonly Move[];
  readonly left: readonly string[];
  readonly supplies: readonly SupplyReport[];
}

export interface PowerRequest {
  readonly hours?: number | undefined;
  readonly fuel_L_per_kWh?: number | undefined;
  /** Most that a cable may lose, and the temperature of its copper. */
  readonly limit_percent?: number | undefined;
  readonly temperature_C?: number | undefined;
  readonly setup?: string | undefined;
  /** Readings of the same scene, for what is lost with a lamp. */
  readonly metered?: MeterReport | undefined;
}

export const POWER_DEFAULTS: SupplyRequest = {
  hours: 6,
  fuel_L_per_kWh: FUEL_L_PER_kWh,
  limit_percent: LIGHTING_DROP_LIMIT_PERCENT,
  temperature_C: 20,
};

/** The power of a scene whose setup has been applied. */
export function powerScene(
  document: SceneDocument,
  asked: PowerRequest = {},
  library: Library = LIBRARY,
): PowerReport {
  const request: SupplyRequest = {
    hours: asked.hours ?? POWER_DEFAULTS.hours,
    fuel_L_per_kWh: asked.fuel_L_per_kWh ?? POWER_DEFAULTS.fuel_L_per_kWh,
    limit_percent: asked.limit_percent ?? POWER_DEFAULTS.limit_percent,
    temperature_C: asked.temperature_C ?? POWER_DEFAULTS.temperature_C,
  };
  const loads = lampLoads(document, library);
  const kit = kitOf(document, library);
  const documentSupplies = document.supplies ?? [];
  const report = (of: readonly LampLoad[]) =>
    documentSupplies.map((supply) => supplyReport(supply, of, kit, request));
  const supplies = report(loads);

  const on = loads.filter((load) => load.on);
  const unplugged = on.filter((load) => load.supply === null);
  const total = {
    load_W: on.reduce((sum, load) => sum + (load.draw?.load_W ?? 0), 0),
    load_VA: on.reduce((sum, load) => sum + (load.draw?.load_VA ?? 0), 0),
  };
  const generator_kVA = generatorRating_kVA([total.load_VA]);
  const wanting = supplies.some((supply) => supply.over) || unplugged.some((load) => load.draw !== null);
  const found = wanting ? proposalFor(documentSupplies, loads) : null;
  return {
    keyfall: 1,
    title: document.title,
    setup: asked.setup ?? null,
    request,
    supplies,
    lamps: loads.map((load, i) => poweredLamp(load, document.lamps![i]!.level ?? 1, supplies, kit)),
    unplugged: unplugged.map((load) => load.id),
    unknown: on.filter((load) => load.draw === null).map((load) => load.id),
    total,
    generator_kVA,
    usualGenerator_kVA: usualGenerator_kVA(generator_kVA),
    proposal: found && {
      fits: found.fits,
      proven: found.proven,
      moves: found.moves,
      left: found.left,
      supplies: report(found.loads),
    },
    ifLost: asked.metered ? lossesOf(asked.metered, failuresOf(supplies, on)) : null,
  };
}

/** The heads that the document has or uses, and its lamps' levels. */
function kitOf(document: SceneDocument, library: Library): Kit {
  const lamps = document.lamps ?? [];
  const names = [...new Set([...lamps.map((lamp) => lamp.head), ...Object.keys(document.heads ?? {})])];
  return {
    heads: new Map(names.map((name) => [name, entryNamed(document.heads, library.heads, name)!])),
    levels: new Map(lamps.map((lamp) => [lamp.id, lamp.level ?? 1])),
  };
}

function poweredLamp(
  load: LampLoad,
  level: number,
  supplies: readonly SupplyReport[],
  kit: Kit,
): PoweredLamp {
  const supply = supplies.find((s) => s.id === load.supply);
  const head = kit.heads.get(load.head)!;
  const phase = supply?.phases?.find(({ lamps }) => lamps.includes(load.id))?.phase ?? load.phase;
  return {
    id: load.id,
    name: load.name,
    head: load.head,
    headName: head.name ?? load.head,
    on: load.on,
    level,
    supply: load.supply,
    phase,
    load_W: load.draw?.load_W ?? null,
    load_VA: load.draw?.load_VA ?? null,
    current_A: supply && load.draw ? load.draw.load_VA / supply.volts : null,
    powerFactor: load.draw?.powerFactor ?? null,
    powerFactorAssumed: load.draw?.assumed ?? false,
    kind: head.electrical?.kind ?? null,
    restrike_min: head.electrical?.restrike_min ?? null,
  };
}

/** Every lamp that is on by itself, and every supply that more than one hangs on. */
function failuresOf(supplies: readonly SupplyReport[], on: readonly LampLoad[]): Failure[] {
  return [
    ...on.map(({ id, name }): Failure => ({ what: 'lamp', id, name, lamps: [id] })),
    ...supplies
      .filter((supply) => supply.lamps.length > 1)
      .map(({ id, name, lamps }): Failure => ({ what: 'supply', id, name, lamps })),
  ];
}
