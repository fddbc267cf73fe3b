import { indicatedFNumber } from '../exposure/f-number.ts';
import { stopsAbove } from '../exposure/stops.ts';
import type { Calibration, CameraExposure } from '../exposure/zero.ts';
import { zeroOf } from '../exposure/zero.ts';
import { hazeLoss_stops } from '../haze/extinction.ts';
import type { LightModel } from '../light-model/light-model.ts';
import type { Vec3 } from '../math/vec3.ts';
import { xyzFromLinearRgb } from '../picture/linear-rgb.ts';
import { colourTemperatureOf } from '../spectra/colour-temperature.ts';
import { DIRECT_DEFAULTS, type DirectLight, directLight, errorInStops } from '../transport/direct.ts';
import type { DirectMemo } from '../transport/direct-memo.ts';
import {
  type Indirect,
  indirectError_lx,
  indirectMean,
  newIndirect,
  refineIndirect,
} from '../transport/indirect.ts';
import { BOUNCE, HAZE, lampBin, luminance, skyBin } from '../transport/light-bins.ts';
import type { Receptor } from '../transport/receptor.ts';
import type { MeterPoint } from '../transport/source-sample.ts';
import type { Tracer } from '../transport/tracer.ts';
import { inputUncertainty_stops } from './input-uncertainty.ts';

/** One lamp's part in a reading, for the mark's own receptor. */
export interface LampReading {
  readonly id: string;
  readonly illuminance_lx: number;
  readonly direct_lx: number;
  readonly bounce_lx: number;
  readonly haze_lx: number;
  /** Over the camera's zero, for this lamp alone; −Infinity for no light. */
  readonly stops: number;
  readonly distance_m: number;
  /** How much of the distance lies in haze. */
  readonly hazed_m: number;
  readonly incidence_deg: number;
  readonly offAxis_deg: number;
  /** Unblocked share of the lamp's face. */
  readonly visible: number;
}

/** What a meter held at a mark reads. The parts and `illuminance_lx` are for the mark's own receptor. */
export interface Reading {
  readonly receptor: Receptor;
  readonly illuminance_lx: number;
  readonly flat_lx: number;
  readonly dome_lx: number;
  /** Over the camera's zero; −Infinity for no light. */
  readonly stops: number;
  /** The f-number that the meter shows for the camera's shutter, speed and losses. */
  readonly fNumber: number;
  /** Both ± stops: the 95 % interval of the computation, and what the inputs may be off. */
  readonly uncertainty: { readonly numerical_stops: number; readonly input_stops: number };
  /** Straight from lamps; by way of surfaces and panes; from the haze; and all that began in the sky. */
  readonly direct_lx: number;
  readonly bounce_lx: number;
  readonly haze_lx: number;
  readonly sky_lx: number;
  /** Null in the dark, and where a colour temperature has no meaning (|Duv| > 0.05). */
  readonly cct_K: number | null;
  readonly duv: number | null;
  readonly lamps: readonly LampReading[];
}

export interface MeterOptions {
  readonly exposure: CameraExposure;
  readonly calibration: Calibration;
  /** Wanted numerical error in stops, 95 %. */
  readonly error_stops: number;
}

/** A reading in the making: straight light at once, all other light refined step by step. */
export interface Metering {
  readonly model: LightModel;
  readonly meter: MeterPoint;
  readonly receptor: Receptor;
  readonly options: MeterOptions;
  readonly direct: DirectLight;
  /** Null when only straight light is wanted. */
  readonly indirect: Indirect | null;
}

/** The share of the wanted error that straight light may have when other light is computed too. */
const DIRECT_SHARE = 0.5;
const FIRST_PATHS = 32;
/** Per batch; 16 times as many in all. A reading that is not good enough by then says how good it is. */
const MOST_PATHS = 1 << 13;

/**
 * Begins a reading. With a tracer all light is counted; without, `bounce_lx` and `haze_lx` stay 0, and whoever prints the
 * reading says so. `memo`: see `directLight`.
 */
export function startMetering(
  model: LightModel,
  tracer: Tracer | null,
  meter: MeterPoint,
  receptor: Receptor,
  options: MeterOptions,
  memo?: DirectMemo,
): Metering {
  const error_stops = options.error_stops * (tracer ? DIRECT_SHARE : 1);
  const { maxSamples } = DIRECT_DEFAULTS;
  const direct = directLight(model, meter, { receptor, error_stops, maxSamples }, memo);
  const indirect = tracer ? newIndirect(tracer, meter, 1) : null;
  if (indirect) refineIndirect(indirect, FIRST_PATHS);
  return { model, meter, receptor, options, direct, indirect };
}

/** Darker than this against the camera's zero, no meter reads and no camera sees. */
const DARK_STOPS = -12;

/** Whether the wanted error is reached, or cannot be, or would be the error of darkness. */
export function isMetered(metering: Metering): boolean {
  const { indirect, options, receptor } = metering;
  if (!indirect || indirect.paths >= MOST_PATHS) return true;
  if (numericalError_stops(metering) <= options.error_stops) return true;
  const zero = zeroOf(options.exposure, options.calibration);
  const dark_lx = (receptor === 'flat' ? zero.flat_lx : zero.dome_lx) * 2 ** DARK_STOPS;
  return sumsFor(metering, receptor).total_lx + error_lx(metering) < dark_lx;
}

/** Twice the paths. */
export function refineMetering({ indirect }: Metering): void {
  if (indirect) refineIndirect(indirect, Math.min(MOST_PATHS, 2 * indirect.paths));
}

/** A whole reading, as exact as was asked. */
export function readMeter(
  model: LightModel,
  tracer: Tracer | null,
  meter: MeterPoint,
  receptor: Receptor,
  options: MeterOptions,
): Reading {
  const metering = startMetering(model, tracer, meter, receptor, options);
  while (!isMetered(metering)) refineMetering(metering);
  return readingOf(metering);
}

/** The reading so far, with the error that it has. */
export function readingOf(metering: Metering): Reading {
  const { model, receptor, direct, options } = metering;
  const { exposure, calibration } = options;
  const zero = zeroOf(exposure, calibration);
  const zero_lx = receptor === 'flat' ? zero.flat_lx : zero.dome_lx;
  const constant = receptor === 'flat' ? calibration.flat : calibration.dome;
  const sums = sumsFor(metering, receptor);
  const other = sumsFor(metering, receptor === 'flat' ? 'dome' : 'flat');
  const illuminance_lx = sums.total_lx;
  const lamps = model.lamps.map((_, i) => lampReading(metering, i, zero_lx));

  return {
    receptor,
    illuminance_lx,
    flat_lx: receptor === 'flat' ? illuminance_lx : other.total_lx,
    dome_lx: receptor === 'dome' ? illuminance_lx : other.total_lx,
    stops: stopsAbove(illuminance_lx, zero_lx),
    fNumber: indicatedFNumber(illuminance_lx, exposure, constant),
    uncertainty: {
      numerical_stops: numericalError_stops(metering),
      input_stops: inputUncertainty_stops(
        model.lamps.map((lamp, i) => ({
          head: lamp.head,
          illuminance_lx: lamps[i]!.illuminance_lx,
          photometry_stops: lamp.photometryUncertainty_stops,
          hazeLoss_stops: hazeLoss_stops(model.haze?.extinction_per_m ?? 0, direct.lamps[i]!.hazed_m),
        })),
        sums.haze_lx,
        sums.sky_lx,
      ),
    },
    direct_lx: sums.direct_lx,
    bounce_lx: sums.bounce_lx,
    haze_lx: sums.haze_lx,
    sky_lx: sums.sky_lx,
    ...colourOf(tristimulusFor(metering)),
    lamps,
  };
}

function lampReading(metering: Metering, i: number, zero_lx: number): LampReading {
  const { model, direct, receptor } = metering;
  const light = direct.lamps[i]!;
  const direct_lx = own(light, receptor);
  const bounce_lx = traced_lx(metering, receptor, lampBin(i, BOUNCE));
  const haze_lx = traced_lx(metering, receptor, lampBin(i, HAZE));
  const illuminance_lx = direct_lx + bounce_lx + haze_lx;
  return {
    id: model.lamps[i]!.id,
    illuminance_lx,
    direct_lx,
    bounce_lx,
    haze_lx,
    stops: stopsAbove(illuminance_lx, zero_lx),
    distance_m: light.distance_m,
    hazed_m: light.hazed_m,
    incidence_deg: light.incidence_deg,
    offAxis_deg: light.offAxis_deg,
    visible: light.visible,
  };
}

function numericalError_stops(metering: Metering): number {
  return errorInStops(error_lx(metering), sumsFor(metering, metering.receptor).total_lx);
}

function error_lx({ direct, indirect, receptor }: Metering): number {
  return Math.hypot(direct.error_lx, indirect ? indirectError_lx(indirect, receptor) : 0);
}

/** Light by its way, for one receptor. */
interface Sums {
  readonly total_lx: number;
  readonly direct_lx: number;
  readonly bounce_lx: number;
  readonly haze_lx: number;
  readonly sky_lx: number;
}

function sumsFor(metering: Metering, receptor: Receptor): Sums {
  const { model, direct } = metering;
  let [direct_lx, bounce_lx, haze_lx] = [0, 0, 0];
  for (let i = 0; i < model.lamps.length; i++) {
    direct_lx += own(direct.lamps[i]!, receptor);
    bounce_lx += traced_lx(metering, receptor, lampBin(i, BOUNCE));
    haze_lx += traced_lx(metering, receptor, lampBin(i, HAZE));
  }
  const sky_lx = own(direct.sky, receptor) + traced_lx(metering, receptor, skyBin(model.lamps.length));
  return { total_lx: direct_lx + bounce_lx + haze_lx + sky_lx, direct_lx, bounce_lx, haze_lx, sky_lx };
}

function own(light: { readonly flat_lx: number; readonly dome_lx: number }, receptor: Receptor): number {
  return receptor === 'flat' ? light.flat_lx : light.dome_lx;
}

function traced_lx({ indirect }: Metering, receptor: Receptor, bin: number): number {
  return indirect ? luminance(...indirectMean(indirect, receptor, bin)) : 0;
}

/** Tristimulus values add, so the colour is that of the sum. */
function tristimulusFor({ model, direct, indirect, receptor }: Metering): Vec3 {
  const XYZ: [number, number, number] = [0, 0, 0];
  const add = (colour: Vec3, scale: number) => {
    for (let c = 0; c < 3; c++) XYZ[c]! += colour[c]! * scale;
  };
  const traced = (bin: number) => {
    if (indirect) add(xyzFromLinearRgb(indirectMean(indirect, receptor, bin)), 1);
  };
  for (const [i, lamp] of model.lamps.entries()) {
    add(lamp.colour_XYZ, own(direct.lamps[i]!, receptor));
    traced(lampBin(i, BOUNCE));
    traced(lampBin(i, HAZE));
  }
  if (model.sky) add(model.sky.colour_XYZ, own(direct.sky, receptor));
  traced(skyBin(model.lamps.length));
  return XYZ;
}

function colourOf(XYZ: Vec3): { cct_K: number | null; duv: number | null } {
  const colour = colourTemperatureOf(XYZ);
  return { cct_K: colour?.white ? colour.cct_K : null, duv: colour?.duv ?? null };
}
