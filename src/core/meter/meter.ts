import { indicatedFNumber } from '../exposure/f-number.ts';
import { stopsAbove } from '../exposure/stops.ts';
import type { Calibration, CameraExposure } from '../exposure/zero.ts';
import { zeroOf } from '../exposure/zero.ts';
import { hazeLoss_stops } from '../haze/extinction.ts';
import type { LightModel } from '../light-model/light-model.ts';
import { colourTemperatureOf } from '../spectra/colour-temperature.ts';
import { DIRECT_DEFAULTS, directLight, errorInStops } from '../transport/direct.ts';
import type { Receptor } from '../transport/receptor.ts';
import type { MeterPoint } from '../transport/source-sample.ts';
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
  readonly error_stops?: number;
}

/**
 * Reads the straight light of all lamps and of the sky. Light that bounces or that haze throws about is not in it yet:
 * `bounce_lx` and `haze_lx` are 0, and whoever prints the reading says so.
 */
export function readMeter(
  model: LightModel,
  meter: MeterPoint,
  receptor: Receptor,
  options: MeterOptions,
): Reading {
  const { exposure, calibration } = options;
  const light = directLight(model, meter, {
    receptor,
    error_stops: options.error_stops ?? DIRECT_DEFAULTS.error_stops,
    maxSamples: DIRECT_DEFAULTS.maxSamples,
  });
  const zero = zeroOf(exposure, calibration);
  const zero_lx = receptor === 'flat' ? zero.flat_lx : zero.dome_lx;
  const constant = receptor === 'flat' ? calibration.flat : calibration.dome;

  let flat_lx = light.sky.flat_lx;
  let dome_lx = light.sky.dome_lx;
  for (const lamp of light.lamps) {
    flat_lx += lamp.flat_lx;
    dome_lx += lamp.dome_lx;
  }
  const illuminance_lx = receptor === 'flat' ? flat_lx : dome_lx;
  const sky_lx = receptor === 'flat' ? light.sky.flat_lx : light.sky.dome_lx;
  const lampLight_lx = light.lamps.map((lamp) => (receptor === 'flat' ? lamp.flat_lx : lamp.dome_lx));
  const colour = colourOf(model, lampLight_lx, sky_lx);

  return {
    receptor,
    illuminance_lx,
    flat_lx,
    dome_lx,
    stops: stopsAbove(illuminance_lx, zero_lx),
    fNumber: indicatedFNumber(illuminance_lx, exposure, constant),
    uncertainty: {
      numerical_stops: errorInStops(light.error_lx, illuminance_lx),
      input_stops: inputUncertainty_stops(
        model.lamps.map((lamp, i) => ({
          head: lamp.head,
          illuminance_lx: lampLight_lx[i]!,
          photometry_stops: lamp.photometryUncertainty_stops,
          hazeLoss_stops: hazeLoss_stops(model.haze?.extinction_per_m ?? 0, light.lamps[i]!.distance_m),
        })),
        sky_lx,
      ),
    },
    direct_lx: illuminance_lx - sky_lx,
    bounce_lx: 0,
    haze_lx: 0,
    sky_lx,
    cct_K: colour?.white ? colour.cct_K : null,
    duv: colour?.duv ?? null,
    lamps: model.lamps.map((lamp, i) => ({
      id: lamp.id,
      illuminance_lx: lampLight_lx[i]!,
      direct_lx: lampLight_lx[i]!,
      bounce_lx: 0,
      haze_lx: 0,
      stops: stopsAbove(lampLight_lx[i]!, zero_lx),
      distance_m: light.lamps[i]!.distance_m,
      incidence_deg: light.lamps[i]!.incidence_deg,
      offAxis_deg: light.lamps[i]!.offAxis_deg,
      visible: light.lamps[i]!.visible,
    })),
  };
}

/** Tristimulus values add: the colour of the reading is that of its parts, each weighted by its illuminance. */
function colourOf(model: LightModel, lampLight_lx: readonly number[], sky_lx: number) {
  const sum: [number, number, number] = [0, 0, 0];
  const gather = (colour_XYZ: readonly number[], illuminance_lx: number) => {
    for (let i = 0; i < 3; i++) sum[i]! += colour_XYZ[i]! * illuminance_lx;
  };
  for (const [i, lamp] of model.lamps.entries()) gather(lamp.colour_XYZ, lampLight_lx[i]!);
  if (model.sky) gather(model.sky.colour_XYZ, sky_lx);
  return colourTemperatureOf(sum);
}
