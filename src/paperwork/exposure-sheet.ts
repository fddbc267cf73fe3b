import { thirdsText } from '../core/exposure/thirds.ts';
import type { CameraExposure } from '../core/exposure/zero.ts';
import { fcFromLx } from '../core/units/illuminance.ts';
import type { MarkReport, MeterReport } from '../scene/meter/meter-scene.ts';

/** The exposure sheet as data: the same words and digits on the page, in the terminal and on paper. */
export interface ExposureSheet {
  readonly title: string;
  readonly heading: string;
  readonly unit: 'lx' | 'fc';
  readonly rows: readonly ExposureRow[];
  /** Whether bounce and the glow of haze are in the readings. */
  readonly allLight: boolean;
  /** Conventions and limits, a sentence each. */
  readonly footer: readonly string[];
}

export interface ExposureRow {
  readonly id: string;
  readonly name: string;
  readonly receptor: string;
  readonly reading: string;
  readonly stops: string;
  readonly fNumber: string;
  /** Numerical and input uncertainty together, in stops. */
  readonly plusMinus: string;
  readonly colour: string;
  readonly lamps: readonly { readonly id: string; readonly reading: string; readonly stops: string }[];
  readonly sky: string;
  /** What of the reading comes by way of surfaces and glass, and from the glow of haze. */
  readonly bounce: string;
  readonly haze: string;
}

export type IlluminanceUnit = 'lx' | 'fc';

export function exposureSheet(report: MeterReport, unit: IlluminanceUnit = 'lx'): ExposureSheet {
  const { exposure } = report;
  const { zero, calibration } = exposure;
  const reading = (illuminance_lx: number) => readingText(illuminance_lx, unit);
  return {
    title: report.title,
    heading: exposureHeading(report),
    unit,
    allLight: report.covers.bounce,
    rows: report.marks.map((mark) => ({
      id: mark.id,
      name: mark.name,
      receptor: `${mark.receptor} → ${mark.facing}`,
      reading: reading(mark.illuminance_lx),
      stops: thirdsText(mark.stops),
      fNumber: fNumberText(mark.fNumber),
      plusMinus: plusMinusText(mark),
      colour: colourText(mark),
      lamps: mark.lamps.map((lamp) => ({
        id: lamp.id,
        reading: reading(lamp.illuminance_lx),
        stops: thirdsText(lamp.stops),
      })),
      sky: reading(mark.sky_lx),
      bounce: reading(mark.bounce_lx),
      haze: reading(mark.haze_lx),
    })),
    footer: [
      `Zero of the camera: flat ${reading(zero.flat_lx)} ${unit} (C ${calibration.flat}), ` +
        `dome ${reading(zero.dome_lx)} ${unit} (C ${calibration.dome}), ` +
        `spot ${significant(zero.luminance_cd_m2)} cd/m² (K ${calibration.reflected}).`,
      'Stops are from that zero, to the nearest third; f-number is what the meter shows at this shutter and ISO.',
      '± is in stops: the computation at 95 % and the inputs (metered ⅓, file ⅔, lumens 1, haze up to 1), in quadrature.',
      report.covers.bounce && report.covers.haze
        ? 'All light of lamps and sky: straight, off surfaces, through panes, and the glow of haze.'
        : 'Straight light of lamps and sky, through panes and haze. Bounce and the glow of haze are not counted.',
      ...(report.corrected ? [correctedText(report.corrected.readings)] : []),
      'Planning aid only. Meter on the night; local codes, venue rules and competent people override every figure.',
    ],
  };
}

/** That the numbers are not the plan's alone. */
function correctedText(readings: number): string {
  return `Corrected by ${readings} ${readings === 1 ? 'reading' : 'readings'} of the night: lamps and haze as metered, ± narrowed to match.`;
}

/** What was asked for: `Setup 1a · camera a · f/4 · 1/50 s · ISO 800`. */
export function exposureHeading({
  setup,
  camera,
  exposure,
}: Pick<MeterReport, 'setup' | 'camera' | 'exposure'>): string {
  return [viewWords({ setup, camera }), exposureWords(exposure)].join(' · ');
}

/** In which setup, by which camera: `Base · camera a`. */
export function viewWords({ setup, camera }: Pick<MeterReport, 'setup' | 'camera'>): string {
  return [setup === null ? 'Base' : `Setup ${setup}`, `camera ${camera}`].join(' · ');
}

/** A camera's own settings: `f/4 · 1/50 s · ISO 800`. */
export function exposureWords({ fNumber, shutter_s, iso, nd_stops, loss_stops }: CameraExposure): string {
  return [
    `f/${fNumber}`,
    shutterText(shutter_s),
    `ISO ${iso}`,
    ...(nd_stops > 0 ? [`ND ${stopsText(nd_stops)}`] : []),
    ...(loss_stops > 0 ? [`lens loss ${stopsText(loss_stops)}`] : []),
  ].join(' · ');
}

/** Illuminance as it is read off a meter: three figures, never more. */
export function readingText(illuminance_lx: number, unit: IlluminanceUnit): string {
  return significant(unit === 'fc' ? fcFromLx(illuminance_lx) : illuminance_lx);
}

/** Three significant figures, at most two decimals, without an exponent: what a meter can show. */
export function significant(value: number): string {
  const decimals = Math.min(2, Math.max(0, 2 - Math.floor(Math.log10(value))));
  if (value < 1000) return String(Number(value.toFixed(decimals)));
  return String(Math.round(Number(value.toPrecision(3))));
}

export function shutterText(shutter_s: number): string {
  if (shutter_s >= 0.3) return `${significant(shutter_s)} s`;
  return `1/${significant(1 / shutter_s)} s`;
}

function stopsText(stops: number): string {
  return `${significant(stops)} ${stops === 1 ? 'stop' : 'stops'}`;
}

function fNumberText(fNumber: number): string {
  return fNumber < 0.05 ? 'none' : `f/${fNumber.toFixed(1)}`;
}

function plusMinusText(mark: MarkReport): string {
  if (mark.illuminance_lx === 0) return '–';
  const { numerical_stops, input_stops } = mark.uncertainty;
  return `±${Math.hypot(numerical_stops, input_stops).toFixed(1)}`;
}

function colourText(mark: MarkReport): string {
  if (mark.cct_K !== null) return `${Math.round(mark.cct_K / 50) * 50} K`;
  return mark.duv === null ? '' : 'not a white';
}
