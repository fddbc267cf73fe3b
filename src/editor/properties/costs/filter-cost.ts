import { colourTemperatureOf } from '../../../core/spectra/colour-temperature.ts';
import { filtered } from '../../../scene/compile/lamp-light.ts';
import type { Filter } from '../../../scene/schema/filter.ts';
import type { LampSpectrum } from '../../../scene/schema/head.ts';
import { spectrumOfLamp } from './spectrum-of-lamp.ts';

/** What a stack of filters does to a lamp's light. */
export interface FilterCost {
  /** Above zero. */
  readonly loss_stops: number;
  /** How far that may be off, ±; 0 without filters. */
  readonly loss_uncertainty_stops: number;
  /** Of the light behind it; null where it is no white to speak of. */
  readonly cct_K: number | null;
  /** Green above zero, pink below: distance from black bodies in CIE 1960. */
  readonly duv: number | null;
}

/**
 * Common practice, no source: a gel of known shift is good to a quarter stop, a net or neutral density to a tenth, a
 * measured table to a tenth; a saturated colour of our own model to half a stop.
 */
const UNCERTAINTY_stops: Readonly<Record<Filter['kind'], number>> = {
  conversion: 1 / 4,
  green: 1 / 4,
  colour: 1 / 2,
  diffusion: 1 / 4,
  neutral: 1 / 10,
  net: 1 / 10,
  table: 1 / 10,
};

/** Redder than a candle there is nothing that a camera could be balanced for. */
const WARMEST_K = 1500;

const MOST_KEPT = 256;
const kept = new Map<string, FilterCost>();

/**
 * Loss and colour behind filters, kept for the next question: nothing of it changes while a lamp is moved.
 * @throws RangeError for figures that no lamp or gel can have
 */
export function filterCost(lamp: LampSpectrum, filters: readonly Filter[]): FilterCost {
  const key = JSON.stringify([lamp, filters]);
  let known = kept.get(key);
  if (!known) {
    if (kept.size >= MOST_KEPT) kept.clear();
    known = costOf(lamp, filters);
    kept.set(key, known);
  }
  return known;
}

function costOf(lamp: LampSpectrum, filters: readonly Filter[]): FilterCost {
  const { colour_XYZ, transmission } = filtered(spectrumOfLamp(lamp), filters);
  const colour = colourTemperatureOf(colour_XYZ);
  return {
    loss_stops: -Math.log2(transmission),
    loss_uncertainty_stops: Math.hypot(...filters.map(({ kind }) => UNCERTAINTY_stops[kind])),
    cct_K: colour?.white && colour.cct_K >= WARMEST_K ? colour.cct_K : null,
    duv: colour?.duv ?? null,
  };
}

/** Where scenes stop naming colour temperatures. */
const COLDEST_K = 25_000;

/** As far as a gel's colour is known, some 10 mired: to 50 K when warm, to 500 K when very cold. */
export function kelvinText(cct_K: number | null): string {
  if (cct_K === null) return 'a colour, no white';
  if (cct_K > COLDEST_K) return `over ${COLDEST_K / 1000}\u202f000 K`;
  const step_K = cct_K < 4000 ? 50 : cct_K < 7000 ? 100 : 500;
  return `${Math.round(cct_K / step_K) * step_K} K`;
}

export function lossText(loss_stops: number): string {
  const text = Math.max(0, loss_stops).toFixed(2);
  return `\u2212${text} ${Number(text) > 1 ? 'stops' : 'stop'}`;
}
