import { indicatedFNumber } from '../exposure/f-number.ts';
import { stopsAbove } from '../exposure/stops.ts';
import type { Calibration, CameraExposure } from '../exposure/zero.ts';
import { zeroOf } from '../exposure/zero.ts';
import { hazeLoss_stops } from '../haze/extinction.ts';
import type { LightModel } from '../light-model/light-model.ts';
import { xyzFromLinearRgb } from '../picture/linear-rgb.ts';
import { colourTemperatureOf } from '../spectra/colour-temperature.ts';
import { DIRECT_DEFAULTS, type DirectLight, directLight, errorInStops } from '../transport/direct.ts';
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
 * reading says so.
 */
export function startMetering(
  model: LightModel,
  tracer: Tracer | null,
  meter: MeterPoint,
  receptor: Receptor,
  options: MeterOptions,
): Metering {
  const direct = directLight(model, meter, {
    receptor,
    error_stops: options.error_stops * (tracer ? DIRECT_SHARE : 1),
    maxSamples: DIRECT_DEFAULTS.maxSamples,
  });
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
  return partsFor(metering, receptor).total_lx + error_lx(metering) < dark_lx;
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
  const parts = partsFor(metering, receptor);
  const other = partsFor(metering, receptor === 'flat' ? 'dome' : 'flat');
  const illuminance_lx = parts.total_lx;

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
          illuminance_lx: parts.lamps[i]!.illuminance_lx,
          photometry_stops: lamp.photometryUncertainty_stops,
          hazeLoss_stops: hazeLoss_stops(model.haze?.extinction_per_m ?? 0, direct.lamps[i]!.hazed_m),
        })),
        parts.haze_lx,
        parts.sky_lx,
      ),
    },
    direct_lx: parts.direct_lx,
    bounce_lx: parts.bounce_lx,
    haze_lx: parts.haze_lx,
    sky_lx: parts.sky_lx,
    ...colourOf(parts.XYZ),
    lamps: model.lamps.map((lamp, i) => ({
      id: lamp.id,
      ...parts.lamps[i]!,
      stops: stopsAbove(parts.lamps[i]!.illuminance_lx, zero_lx),
      distance_m: direct.lamps[i]!.distance_m,
      hazed_m: direct.lamps[i]!.hazed_m,
      incidence_deg: direct.lamps[i]!.incidence_deg,
      offAxis_deg: direct.lamps[i]!.offAxis_deg,
      visible: direct.lamps[i]!.visible,
    })),
  };
}

function numericalError_stops(metering: Metering): number {
  return errorInStops(error_lx(metering), partsFor(metering, metering.receptor).total_lx);
}

function error_lx({ direct, indirect, receptor }: Metering): number {
  return Math.hypot(direct.error_lx, indirect ? indirectError_lx(indirect, receptor) : 0);
}

interface Parts {
  total_lx: number;
  direct_lx: number;
  bounce_lx: number;
  haze_lx: number;
  sky_lx: number;
  readonly lamps: { illuminance_lx: number; direct_lx: number; bounce_lx: number; haze_lx: number }[];
  readonly XYZ: [number, number, number];
}

/** Light by lamp and by way, for one receptor; tristimulus values add, so the colour is that of the sum. */
function partsFor({ model, direct, indirect }: Metering, receptor: Receptor): Parts {
  const own = (light: { flat_lx: number; dome_lx: number }) =>
    receptor === 'flat' ? light.flat_lx : light.dome_lx;
  const parts: Parts = {
    total_lx: 0,
    direct_lx: 0,
    bounce_lx: 0,
    haze_lx: 0,
    sky_lx: own(direct.sky),
    lamps: [],
    XYZ: [0, 0, 0],
  };
  const add = (XYZ: readonly number[], scale: number) => {
    for (let c = 0; c < 3; c++) parts.XYZ[c]! += XYZ[c]! * scale;
  };
  const traced = (bin: number): number => {
    if (!indirect) return 0;
    const rgb = indirectMean(indirect, receptor, bin);
    add(xyzFromLinearRgb(rgb), 1);
    return luminance(...rgb);
  };
  for (const [i, lamp] of model.lamps.entries()) {
    const direct_lx = own(direct.lamps[i]!);
    add(lamp.colour_XYZ, direct_lx);
    const bounce_lx = traced(lampBin(i, BOUNCE));
    const haze_lx = traced(lampBin(i, HAZE));
    parts.lamps.push({ illuminance_lx: direct_lx + bounce_lx + haze_lx, direct_lx, bounce_lx, haze_lx });
    parts.direct_lx += direct_lx;
    parts.bounce_lx += bounce_lx;
    parts.haze_lx += haze_lx;
  }
  if (model.sky) add(model.sky.colour_XYZ, parts.sky_lx);
  parts.sky_lx += traced(skyBin(model.lamps.length));
  parts.total_lx = parts.direct_lx + parts.bounce_lx + parts.haze_lx + parts.sky_lx;
  return parts;
}

function colourOf(XYZ: readonly [number, number, number]): { cct_K: number | null; duv: number | null } {
  const colour = colourTemperatureOf(XYZ);
  return { cct_K: colour?.white ? colour.cct_K : null, duv: colour?.duv ?? null };
}
