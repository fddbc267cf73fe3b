import { firstCrossing } from '../../core/balance/first-crossing.ts';
import { stopsAbove } from '../../core/exposure/stops.ts';
import { faceRadius_m } from '../../core/lamps/face.ts';
import { lampFrame } from '../../core/lamps/lamp-frame.ts';
import type { LightModel } from '../../core/light-model/light-model.ts';
import { add, distance, dot, scale, subtract, type Vec3 } from '../../core/math/vec3.ts';
import { colourTemperatureOf } from '../../core/spectra/colour-temperature.ts';
import { lampStanding } from '../mirror/lamp-standing.ts';
import { mayStandAt } from '../mirror/standing.ts';
import type { Camera } from '../schema/camera.ts';
import type { SceneDocument } from '../schema/document.ts';
import type { Lamp } from '../schema/lamp.ts';
import type { Mark } from '../schema/mark.ts';
import { groundOf } from '../stands/ground.ts';
import { readLampAlone, straightLight_lx } from './lamp-light-at-mark.ts';

/** What may be done where a lamp at its full level is not enough, with what it comes to. */
export type Remedy = Outcome &
  (
    | {
        readonly change: 'nearer' | 'height';
        readonly position_m: Vec3;
        readonly distance_m: number;
        /** Over the ground there. */
        readonly height_m: number;
      }
    | { readonly change: 'without-filter'; readonly filter: string; readonly cct_K: number | null }
    | { readonly change: 'more-heads'; readonly count: number }
  );

interface Outcome {
  readonly lamp: string;
  /** The level to set then. */
  readonly level: number;
  /** Over the camera's zero, what is wanted at the mark reads then; all light, computed anew. */
  readonly outcome_stops: number;
  readonly reached: boolean;
}

export interface Place {
  readonly document: SceneDocument;
  readonly model: LightModel;
  readonly camera: Camera;
  readonly mark: Mark;
  readonly compile: (document: SceneDocument) => LightModel;
}

export interface Shortfall {
  /** By lamp at full level; what is there anyway; and the levels that have been found. */
  readonly full_lx: readonly number[];
  readonly other_lx: number;
  readonly levels: readonly number[];
  readonly zero_lx: number;
  readonly wanted_stops: number;
  /** Null for a mark's total: then it is the lamp that gives most there. */
  readonly lamp: string | null;
}

const MET_stops = 0.1;
/** A change that gains less than this by itself is not worth the walk. */
const WORTHWHILE_stops = 0.15;
const OUTCOME_ERROR_stops = 0.03;
/** With less of its light than this coming straight, moving a lamp by its straight light would be a guess. */
const LEAST_STRAIGHT_SHARE = 0.2;
/** No lamp is put nearer to a mark: heat and glare, common practice, no source. */
const LEAST_DISTANCE_m = 1;
const LOWEST_m = 0.5;
const MOST_HEADS = 8;
const STEPS = 24;

export function remediesFor(place: Place, shortfall: Shortfall): Remedy[] {
  const { document } = place;
  const lamps = document.lamps ?? [];
  const { full_lx, other_lx, levels, zero_lx, wanted_stops } = shortfall;
  const index =
    shortfall.lamp === null
      ? full_lx.indexOf(Math.max(...full_lx))
      : lamps.findIndex((lamp) => lamp.id === shortfall.lamp);
  const lamp = lamps[index]!;
  const others_lx = full_lx.reduce((sum, lx, i) => (i === index ? sum : sum + lx * levels[i]!), other_lx);
  const need_lx = zero_lx * 2 ** wanted_stops - others_lx;
  const full = full_lx[index]!;

  const outcomeOf = (light_lx: number): Outcome => {
    const level = Math.min(1, need_lx / light_lx);
    const outcome_stops = stopsAbove(others_lx + level * light_lx, zero_lx);
    return { lamp: lamp.id, level, outcome_stops, reached: outcome_stops >= wanted_stops - MET_stops };
  };
  const before_stops = stopsAbove(others_lx + full, zero_lx);
  const worthwhile = (remedy: Remedy) =>
    remedy.reached || remedy.outcome_stops - before_stops >= WORTHWHILE_stops;
  const lightOf = (changed: Partial<Lamp>): { light_lx: number; variant: SceneDocument } => {
    const variant = withLamp(document, index, { ...lamp, level: 1, ...changed });
    const { illuminance_lx } = readLampAlone(
      variant,
      place.compile(variant),
      place.camera,
      place.mark,
      lamp.id,
      OUTCOME_ERROR_stops,
    );
    return { light_lx: illuminance_lx, variant };
  };

  const remedies: (Remedy | null)[] = [
    ...moves(place, index, full, need_lx).map(({ change, position_m }): Remedy => {
      const distance_m = distance(position_m, place.mark.position_m);
      return {
        ...outcomeOf(lightOf({ position_m: [...position_m] }).light_lx),
        change,
        position_m,
        distance_m,
        height_m: position_m[1] - groundOf(place.model, position_m).level_m,
      };
    }),
    ...[...new Set(lamp.filters ?? [])].map((filter): Remedy => {
      const filters = (lamp.filters ?? []).filter((name) => name !== filter);
      const { light_lx, variant } = lightOf({ filters });
      const cct_K = colourOf_K(place.compile(variant), index);
      return { ...outcomeOf(light_lx), change: 'without-filter', filter, cct_K };
    }),
    moreHeads(full, need_lx, outcomeOf),
  ];
  return remedies.filter((remedy): remedy is Remedy => remedy !== null && worthwhile(remedy));
}

interface Move {
  readonly change: 'nearer' | 'height';
  readonly position_m: Vec3;
}

/** The smallest moves along the lamp's axis and up or down its stand that are enough by the straight light. */
function moves(place: Place, index: number, full: number, need_lx: number): Move[] {
  const { document, model, camera, mark } = place;
  const lamp = document.lamps![index]!;
  const straight_lx = straightLight_lx(document, model, camera, mark, lamp.id);
  const share = straight_lx / (full * (lamp.level ?? 1));
  if (!(share >= LEAST_STRAIGHT_SHARE)) return [];
  /** All other light of the lamp is taken to stay as it is; the outcome is computed anew. */
  const gain = (position_m: Vec3): number => {
    const moved = withLamp(document, index, { ...lamp, position_m: [...position_m] });
    const frame = lampFrame(position_m, lamp.aim_m, lamp.roll_deg);
    const lamps = model.lamps.map((l, i) => (i === index ? { ...l, frame } : l));
    const now_lx = straightLight_lx(moved, { ...model, lamps }, camera, mark, lamp.id);
    return 1 - share + share * (now_lx / straight_lx);
  };
  const target = need_lx / full;
  const standing = lampStanding(document, model, lamp);
  const search = (change: Move['change'], to_m: Vec3): Move[] => {
    const way = subtract(to_m, lamp.position_m);
    const at = (s: number): Vec3 => add(lamp.position_m, scale(way, s));
    const places = Array.from({ length: STEPS }, (_, i) => at((i + 1) / STEPS));
    const s = firstCrossing((t) => gain(at(t)), target, STEPS);
    if (s !== null) {
      // Where nothing may stand there, a little further does too, with the lamp down.
      const enough = [at(s), ...places.filter((place, i) => (i + 1) / STEPS > s && gain(place) >= target)];
      const place = enough.find((p) => mayStandAt(standing, p));
      return place ? [{ change, position_m: place }] : [];
    }
    if (change === 'nearer') return [];
    // Height is often worth something without being enough.
    const possible = places.filter((p) => mayStandAt(standing, p) && gain(p) > 1);
    const best = possible.toSorted((p, q) => gain(q) - gain(p))[0];
    return best ? [{ change, position_m: best }] : [];
  };

  const { a } = model.lamps[index]!.frame;
  const face_m = 2 * faceRadius_m(model.lamps[index]!.face);
  const along_m = dot(subtract(mark.position_m, lamp.position_m), a) - Math.max(LEAST_DISTANCE_m, face_m);
  const nearer = along_m > 0 ? search('nearer', add(lamp.position_m, scale(a, along_m))) : [];
  const [x, y, z] = lamp.position_m;
  const { ground_m } = standing;
  const highest_m = lamp.stand?.maxHeight_m;
  const heights =
    highest_m === undefined
      ? []
      : [highest_m, LOWEST_m].map((to) => ground_m + to).filter((to) => Math.abs(to - y) > 0.05);
  const tries = heights.flatMap((to) => search('height', [x, to, z]));
  const enough = tries.filter((move) => gain(move.position_m) >= target * 0.999);
  const rank = (move: Move) =>
    enough.length > 0 ? Math.abs(move.position_m[1] - y) : -gain(move.position_m);
  const [height] = (enough.length > 0 ? enough : tries).toSorted((p, q) => rank(p) - rank(q));
  return height ? [...nearer, height] : nearer;
}

function moreHeads(full: number, need_lx: number, outcomeOf: (light_lx: number) => Outcome): Remedy | null {
  // A hair under is enough: within what counts as met.
  const count = Math.ceil((need_lx / full) * 2 ** -MET_stops);
  return count > MOST_HEADS ? null : { ...outcomeOf(count * full), change: 'more-heads', count };
}

function withLamp(document: SceneDocument, index: number, lamp: Lamp): SceneDocument {
  return { ...document, lamps: document.lamps!.with(index, lamp) };
}

function colourOf_K(model: LightModel, index: number): number | null {
  const colour = colourTemperatureOf(model.lamps[index]!.colour_XYZ);
  return colour?.white ? colour.cct_K : null;
}
