/**
 * Hue weighting: grey by hue, a curve of our own.
 *
 *   Y' = Y·2^(c²·(3 − 2c)·k(h))
 *
 * k(h) is how many stops a pure colour of hue h is lifted or lowered: what is set for eight hues, and between two of them
 * a half cosine, so that the curve closes smoothly round the circle. c is how much colour there is, 0 for a neutral and 1
 * for a pure colour, and enters so that neutrals stay where they are and near-neutrals nearly so.
 *
 * With α = R − (G + B)/2 and β = (√3/2)(G − B), h is the angle of (α, β) and c = √(α² + β²)/max(R, G, B), at most 1. Both
 * are ratios of linear light: they do not change with exposure, and noise of a dark channel moves them no more than it
 * moves the light. Orange and purple therefore stand nearer to red and blue than the eye spaces them.
 */
import { type LinearRgb, luminanceOfRgb } from '../picture/linear-rgb.ts';
import type { MonochromeConversion } from './conversion.ts';

/** The hues that can be set, with their place on the circle in degrees. */
export const HUES = {
  red: 0,
  orange: 20,
  yellow: 60,
  green: 120,
  aqua: 180,
  blue: 240,
  purple: 260,
  magenta: 300,
} as const;
export type Hue = keyof typeof HUES;

/** Stops by which a pure colour of each hue is lifted; 0 where left out. */
export type HueStops = Readonly<Partial<Record<Hue, number>>>;

/** Beyond this a hue breaks away from its neighbours and its noise with it. */
export const MOST_HUE_STOPS = 3;

const NAMES = Object.keys(HUES) as Hue[];

/** RangeError unless every hue's stops are a number from −3 to 3. */
export function hueCurve(stops: HueStops): MonochromeConversion {
  for (const hue of NAMES) {
    const k = stops[hue] ?? 0;
    if (!(Math.abs(k) <= MOST_HUE_STOPS))
      throw new RangeError(
        `hue ${hue} is lifted by ${k} stops; give −${MOST_HUE_STOPS} to ${MOST_HUE_STOPS}`,
      );
  }
  return (rgb) => {
    const { hue_deg, purity } = hueOf(rgb);
    const share = purity ** 2 * (3 - 2 * purity);
    return luminanceOfRgb(rgb) * 2 ** (share * liftAt(stops, hue_deg));
  };
}

/** Hue in degrees, 0 to 360 from red over yellow, and purity, 0 to 1. A colour of no light has neither: 0 and 0. */
export function hueOf([red, green, blue]: LinearRgb): { readonly hue_deg: number; readonly purity: number } {
  const alpha = red - (green + blue) / 2;
  const beta = (Math.sqrt(3) / 2) * (green - blue);
  const most = Math.max(red, green, blue);
  if (!(most > 0)) return { hue_deg: 0, purity: 0 };
  const turn = (Math.atan2(beta, alpha) * 180) / Math.PI;
  return { hue_deg: (turn + 360) % 360, purity: Math.min(1, Math.hypot(alpha, beta) / most) };
}

/** k(h). */
function liftAt(stops: HueStops, hue_deg: number): number {
  const next = NAMES.findIndex((name) => HUES[name] > hue_deg);
  const to = Math.max(next, 0);
  const from = (to + NAMES.length - 1) % NAMES.length;
  const start = HUES[NAMES[from]!];
  const span = (HUES[NAMES[to]!] - start + 360) % 360;
  const t = (1 - Math.cos((Math.PI * (hue_deg - start)) / span)) / 2;
  return (1 - t) * (stops[NAMES[from]!] ?? 0) + t * (stops[NAMES[to]!] ?? 0);
}
