import { channelMix, SUM_TOLERANCE } from '../../core/monochrome/channel-mix.ts';
import {
  CONTRAST_FILTERS,
  type ContrastFilter,
  contrastFilterWeights,
} from '../../core/monochrome/contrast-filter.ts';
import type { MonochromeConversion } from '../../core/monochrome/conversion.ts';
import { HUES, type Hue, hueCurve } from '../../core/monochrome/hue-curve.ts';
import { noiseCost_stops } from '../../core/monochrome/noise-cost.ts';
import { type LinearRgb, LUMINANCE_WEIGHTS } from '../../core/picture/linear-rgb.ts';
import { inverse, times } from '../../core/picture/matrix3.ts';
import { whiteBalance } from '../../core/picture/white-balance.ts';
import type { Monochrome } from '../schema/camera.ts';

/** Plain luminance, in the words of the document. */
export const PLAIN: Monochrome = { weights: [...LUMINANCE_WEIGHTS] };

/** The conversion that a camera's settings ask for. */
export function conversionOf({ weights, filter, hues }: Monochrome): MonochromeConversion {
  if (weights) return channelMix(weights);
  if (filter) return channelMix(contrastFilterWeights(filter));
  return hueCurve(withoutGaps(hues ?? {}));
}

function withoutGaps(hues: NonNullable<Monochrome['hues']>): Partial<Record<Hue, number>> {
  return Object.fromEntries(Object.entries(hues).filter(([, stops]) => stops !== undefined));
}

/** Weights of a conversion that is a plain sum; null for a curve by hue. */
export function weightsOf({ weights, filter }: Monochrome): LinearRgb | null {
  if (weights) return weights;
  return filter ? contrastFilterWeights(filter) : null;
}

/** What a conversion is called: "red filter", "mix 0.8/0.2/0", "by hue: red +1". */
export function monochromeWords(monochrome: Monochrome): string {
  const { weights, filter, hues } = monochrome;
  if (filter) return `${filter} filter`;
  if (weights) {
    if (weights.every((w, c) => Math.abs(w - LUMINANCE_WEIGHTS[c]!) < 5e-4)) return 'plain luminance';
    return `mix ${weights.map((w) => minus(Number(w.toFixed(3)))).join('/')}`;
  }
  const set = Object.entries(hues ?? {}).filter(([, stops]) => stops);
  return set.length === 0
    ? 'by hue, none moved'
    : `by hue: ${set.map(([hue, s]) => `${hue} ${s! > 0 ? '+' : ''}${minus(s!)}`).join(', ')}`;
}

function minus(value: number): string {
  return String(value).replace('-', '\u2212');
}

/** What may be typed for a conversion: `luminance`, a contrast filter, or three weights. */
export const MONOCHROME_NAMES = ['luminance', ...CONTRAST_FILTERS] as const;

/** The conversion that was typed; a sentence about it where it is none. */
export function monochromeNamed(text: string): Monochrome | string {
  if (text === 'luminance') return PLAIN;
  if ((CONTRAST_FILTERS as readonly string[]).includes(text)) return { filter: text as ContrastFilter };
  const weights = text.split(',').map((part) => (part.trim() === '' ? Number.NaN : Number(part)));
  if (weights.length !== 3 || !weights.every(Number.isFinite))
    return `give ${MONOCHROME_NAMES.join(', ')}, or three weights such as 0.8,0.2,0`;
  const sum = weights.reduce((total, w) => total + w, 0);
  if (Math.abs(sum - 1) > SUM_TOLERANCE + 1e-9)
    return `the weights add up to ${Number(sum.toFixed(4))}; they must add up to 1, so that a neutral keeps its brightness`;
  return { weights: weights as [number, number, number] };
}

/** How pure the colours are at which a curve by hue is asked for its noise. */
const HALF_PURE = 0.5;

/**
 * Noise that a conversion costs against plain luminance without white balance, in stops, with equal noise in the sensor's
 * red, green and blue before the balance: so what the balance itself lifts is in it. For a curve by hue, at the worst of
 * its hues at half purity, because neutrals cost nothing.
 */
export function noiseOf_stops(monochrome: Monochrome, whiteBalance_K: number): number {
  const balance = whiteBalance(whiteBalance_K);
  const back = inverse(balance);
  const conversion = conversionOf(monochrome);
  const cost = (balanced: LinearRgb) =>
    noiseCost_stops((rgb) => conversion(times(balance, rgb)), times(back, balanced));
  if (!monochrome.hues) return cost([1, 1, 1]);
  return Math.max(...Object.values(HUES).map((hue_deg) => cost(halfPure(hue_deg))));
}

/** A colour of this hue, half-way between the pure colour and white. */
function halfPure(hue_deg: number): LinearRgb {
  const component = (at_deg: number) => {
    const off = Math.abs(((hue_deg - at_deg + 540) % 360) - 180);
    const pure = Math.min(1, Math.max(0, (120 - off) / 60));
    return 1 - HALF_PURE + HALF_PURE * pure;
  };
  return [component(0), component(120), component(240)];
}
