import { indicatedFNumber } from '../../core/exposure/f-number.ts';
import { stopsAbove } from '../../core/exposure/stops.ts';
import type { MarkReport, MeterReport } from '../../scene/meter/meter-scene.ts';

/** What one source gives of a reading: a lamp by its id, or the sky. */
export interface Part {
  readonly of: string | typeof SKY;
  readonly illuminance_lx: number;
  /** Of the mixed reading, 0 to 1. */
  readonly share: number;
}

export const SKY = Symbol('sky');

/** What the meter would read with some lamps out. Light adds, so it is the reading less their parts. */
export interface MixedReading {
  readonly mark: MarkReport;
  readonly illuminance_lx: number;
  /** Over the camera's zero; −Infinity for no light. */
  readonly stops: number;
  readonly fNumber: number;
  /** ± of the whole, computation and inputs in quadrature; null with lamps out, whose ± the report does not part. */
  readonly plusMinus_stops: number | null;
  /** Null with lamps out as well, and where the light is not a white. */
  readonly cct_K: number | null;
  /** By way of surfaces and panes, and from the glow of haze. */
  readonly bounce_lx: number;
  readonly haze_lx: number;
  /** Lamps in the order of the report, then the sky; those that give something. */
  readonly parts: readonly Part[];
}

/** Mixes a reading anew without the muted lamps; with none muted it is the report's own, digit for digit. */
export function mixedReading(
  mark: MarkReport,
  exposure: MeterReport['exposure'],
  muted: ReadonlySet<string>,
): MixedReading {
  const lamps = mark.lamps.filter(({ id }) => !muted.has(id));
  const whole = lamps.length === mark.lamps.length;
  const sum = (what: 'illuminance_lx' | 'bounce_lx' | 'haze_lx') =>
    lamps.reduce((total, lamp) => total + lamp[what], 0);
  const illuminance_lx = whole ? mark.illuminance_lx : mark.sky_lx + sum('illuminance_lx');
  const part = (of: Part['of'], lx: number): Part => ({
    of,
    illuminance_lx: lx,
    share: illuminance_lx > 0 ? lx / illuminance_lx : 0,
  });
  const { numerical_stops, input_stops } = mark.uncertainty;
  return {
    mark,
    illuminance_lx,
    stops: whole ? mark.stops : stopsAbove(illuminance_lx, zeroFor(mark, exposure)),
    fNumber: whole
      ? mark.fNumber
      : indicatedFNumber(illuminance_lx, exposure, exposure.calibration[mark.receptor]),
    plusMinus_stops: whole && illuminance_lx > 0 ? Math.hypot(numerical_stops, input_stops) : null,
    cct_K: whole ? mark.cct_K : null,
    bounce_lx: whole ? mark.bounce_lx : sum('bounce_lx'),
    haze_lx: whole ? mark.haze_lx : sum('haze_lx'),
    parts: [...lamps.map((lamp) => part(lamp.id, lamp.illuminance_lx)), part(SKY, mark.sky_lx)].filter(
      ({ illuminance_lx: lx }) => lx > 0,
    ),
  };
}

/** The camera's zero for the receptor that is held at this mark, lx. */
export function zeroFor({ receptor }: MarkReport, { zero }: MeterReport['exposure']): number {
  return receptor === 'flat' ? zero.flat_lx : zero.dome_lx;
}
