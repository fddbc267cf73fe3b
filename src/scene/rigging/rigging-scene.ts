import type { LightModel } from '../../core/light-model/light-model.ts';
import { AIR_DENSITY_kg_m3, FLAT_PLATE_DRAG } from '../../core/rigging/wind-load.ts';
import { entryNamed, LIBRARY, type Library } from '../library/library.ts';
import { lampStanding } from '../mirror/lamp-standing.ts';
import type { SceneDocument } from '../schema/document.ts';
import { type StandScreen, standScreen } from './stand-screen.ts';

/** Stands and wind of a scene: the answer of `keyfall rigging --json`. A screen, never a judgement. */
export interface RiggingReport {
  readonly keyfall: 1;
  readonly title: string;
  readonly setup: string | null;
  readonly wind: Wind;
  readonly airDensity_kg_m3: number;
  readonly dragCoefficient: number;
  readonly stands: readonly StandScreen[];
}

/** The wind that the stands are screened against: gusts where they are given. Null where nothing is said of it. */
export interface Wind {
  readonly speed_m_s: number | null;
  readonly from: 'request' | 'gusts' | 'steady' | null;
}

export interface RiggingRequest {
  readonly setup?: string | undefined;
  /** Instead of the site's own. */
  readonly wind_m_s?: number | undefined;
}

/**
 * Every stand of a scene whose setup has been applied and which is compiled to `model`. Lamps that are off stand in the wind
 * too. Height counts from whatever is modelled below the lamp, or from y = 0.
 */
export function riggingScene(
  document: SceneDocument,
  model: LightModel,
  request: RiggingRequest = {},
  library: Library = LIBRARY,
): RiggingReport {
  const wind = windOf(document, request.wind_m_s);
  return {
    keyfall: 1,
    title: document.title,
    setup: request.setup ?? null,
    wind,
    airDensity_kg_m3: AIR_DENSITY_kg_m3,
    dragCoefficient: FLAT_PLATE_DRAG,
    stands: (document.lamps ?? []).map((lamp) => {
      const head = entryNamed(document.heads, library.heads, lamp.head)!;
      const { ground_m, vehicles } = lampStanding(document, model, lamp);
      const inVehicle = vehicles.some((vehicle) => vehicle.holds);
      return standScreen(lamp, head, { ground_m, inVehicle }, wind.speed_m_s);
    }),
  };
}

function windOf(document: SceneDocument, asked_m_s: number | undefined): Wind {
  if (asked_m_s !== undefined) return { speed_m_s: asked_m_s, from: 'request' };
  const wind = document.site?.wind;
  if (wind?.gust_m_s !== undefined) return { speed_m_s: wind.gust_m_s, from: 'gusts' };
  if (wind) return { speed_m_s: wind.speed_m_s, from: 'steady' };
  return { speed_m_s: null, from: null };
}
