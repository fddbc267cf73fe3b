import {
  framesInStep,
  lightPulses_Hz,
  nearestSafeShutters,
  type SafeShutter,
  safeAngles_deg,
  safeFrameRates_fps,
  takesWholePulses,
} from '../../core/optics/flicker.ts';
import { cosineRipple, TYPICAL_MODULATION } from '../../core/optics/ripple.ts';
import { entryNamed, type Library } from '../library/library.ts';
import type { SceneDocument } from '../schema/document.ts';

/** Lamps that pulse with the mains, and what the shutter leaves of it. */
export interface FlickerCheck {
  /** Null where the site does not state it. */
  readonly mains_Hz: number | null;
  readonly lamps: readonly FlickeringLamp[];
  /** Lamps whose heads do not say whether they flicker. */
  readonly unstated: readonly string[];
  /** Lamps that would pulse with the mains but run on a battery or a generator: not by the site's frequency for sure. */
  readonly onBattery: readonly string[];
  readonly onGenerator: readonly string[];
  /** Null where nothing pulses, or the mains are not known. */
  readonly safe: boolean | null;
  readonly nearest: { readonly shorter: SafeShutter | null; readonly longer: SafeShutter } | null;
  /** With a frame rate: whether frames keep step with the pulses, so that the ripple left over stands still. */
  readonly inStep: boolean | null;
  /** With a frame rate: safe shutter angles, and the frame rates nearest to it that need none. */
  readonly safeAngles_deg: readonly number[] | null;
  readonly safeRates_fps: readonly number[] | null;
}

export interface FlickeringLamp {
  readonly id: string;
  readonly name: string;
  readonly kind: keyof typeof TYPICAL_MODULATION;
  /** Typical of the kind. */
  readonly modulation: number;
  /** From the darkest to the brightest frame; null where the mains are not known. */
  readonly ripple_stops: number | null;
}

/** Only lamps that are switched on. LED heads that are free of mains flicker have a drive of their own, not looked at. */
export function flickerCheck(
  document: SceneDocument,
  library: Library,
  shutter_s: number,
  rate_fps: number | null,
): FlickerCheck {
  const mains_Hz = document.site?.mains?.hertz ?? null;
  const supplyKind = (id: string | undefined) =>
    (document.supplies ?? []).find((supply) => supply.id === id)?.kind ?? 'mains';
  const lamps: FlickeringLamp[] = [];
  const unstated: string[] = [];
  const onBattery: string[] = [];
  const onGenerator: string[] = [];
  for (const lamp of document.lamps ?? []) {
    if (lamp.on === false || lamp.level === 0) continue;
    const name = lamp.name ?? lamp.id;
    const electrical = entryNamed(document.heads, library.heads, lamp.head)?.electrical;
    if (!electrical?.flicker) unstated.push(name);
    if (electrical?.flicker !== 'mains') continue;
    const supply = supplyKind(lamp.supply);
    if (supply === 'battery') {
      onBattery.push(name);
      continue;
    }
    if (supply === 'generator') onGenerator.push(name);
    const modulation = TYPICAL_MODULATION[electrical.kind];
    lamps.push({
      id: lamp.id,
      name,
      kind: electrical.kind,
      modulation,
      ripple_stops:
        mains_Hz === null
          ? null
          : cosineRipple(modulation, lightPulses_Hz(mains_Hz), shutter_s).peakToPeak_stops,
    });
  }
  const pulses = mains_Hz !== null && lamps.length > 0;
  return {
    mains_Hz,
    lamps,
    unstated,
    onBattery,
    onGenerator,
    safe: pulses ? takesWholePulses(shutter_s, mains_Hz) : null,
    nearest: pulses ? nearestSafeShutters(shutter_s, mains_Hz) : null,
    inStep: pulses && rate_fps !== null ? framesInStep(rate_fps, mains_Hz) : null,
    safeAngles_deg: pulses && rate_fps !== null ? safeAngles_deg(rate_fps, mains_Hz) : null,
    safeRates_fps: pulses && rate_fps !== null ? nearestRates_fps(rate_fps, mains_Hz) : null,
  };
}

/** The safe rates below and above a frame rate; itself where it is one. */
function nearestRates_fps(rate_fps: number, mains_Hz: number): number[] {
  const rates = safeFrameRates_fps(mains_Hz, Math.ceil(lightPulses_Hz(mains_Hz) / rate_fps) + 1);
  const same = rates.find((rate) => Math.abs(rate - rate_fps) < 1e-6);
  if (same !== undefined) return [same];
  const below = rates.find((rate) => rate < rate_fps);
  const above = rates.findLast((rate) => rate > rate_fps);
  return [below, above].filter((rate) => rate !== undefined);
}
