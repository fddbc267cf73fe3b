import type { LightModel } from '../../core/light-model/light-model.ts';
import { colourTemperatureOf } from '../../core/spectra/colour-temperature.ts';
import { evenSplit, widestGap } from '../../core/spectra/even-split.ts';
import { miredFromKelvin } from '../../core/spectra/mired.ts';
import { chosenCamera, DEFAULT_WHITE_BALANCE_K } from '../camera/scene-camera.ts';
import { problemAt, SceneError } from '../problems/problem.ts';
import type { SceneDocument } from '../schema/document.ts';

/** How coloured each lamp looks to the camera, and the white balance that parts cool and warm evenly. */
export interface WhiteBalanceReport {
  readonly keyfall: 1;
  readonly title: string;
  readonly setup: string | null;
  readonly camera: string;
  readonly whiteBalance_K: number;
  readonly lamps: readonly LampColour[];
  /** Null where the lamps that are on do not fall into a cool and a warm group. */
  readonly split: {
    readonly whiteBalance_K: number;
    /** The middle of the cool group lies this far to the blue, that of the warm group as far to the orange. */
    readonly split_mired: number;
    readonly cool: readonly string[];
    readonly warm: readonly string[];
  } | null;
}

export interface LampColour {
  readonly id: string;
  readonly name: string;
  /** After filters; null where a colour temperature has no meaning (|Duv| > 0.05). */
  readonly cct_K: number | null;
  readonly mired: number | null;
  readonly duv: number | null;
  readonly filterLoss_stops: number;
  /** From the camera's white balance and from the even one: below zero bluish, above orange. */
  readonly offset_mired: number | null;
  readonly splitOffset_mired: number | null;
}

/** Closer than this in colour, lamps are no cool and warm pair: twice what the eye just tells apart, common practice, no source. */
const LEAST_GAP_mired = 20;

export function whiteBalanceReport(
  document: SceneDocument,
  model: LightModel,
  request: { readonly setup?: string | undefined; readonly camera?: string | undefined },
): WhiteBalanceReport {
  const camera = chosenCamera(document, request.camera);
  const lit = model.lamps.filter((lamp) => lamp.gain > 0);
  if (lit.length === 0)
    throw new SceneError([
      problemAt(document, ['lamps'], { found: 'no lamp that is on', expected: 'lamps to balance for' }),
    ]);
  const whiteBalance_K = camera.whiteBalance_K ?? DEFAULT_WHITE_BALANCE_K;
  const colours = lit.map((lamp) => {
    const colour = colourTemperatureOf(lamp.colour_XYZ);
    const mired = colour?.white ? miredFromKelvin(colour.cct_K) : null;
    return { lamp, mired, cct_K: mired === null ? null : colour!.cct_K, duv: colour?.duv ?? null };
  });

  const whites = colours
    .flatMap(({ lamp, mired }) => (mired === null ? [] : [{ id: lamp.id, mired }]))
    .sort((one, other) => one.mired - other.mired);
  const firstWarm = widestGap(
    whites.map((white) => white.mired),
    LEAST_GAP_mired,
  );
  const [cool, warm] = [whites.slice(0, firstWarm), whites.slice(firstWarm)];
  const split = firstWarm > 0 ? evenSplit(mean(cool), mean(warm)) : null;
  const from = (mired: number | null, balance_K: number) =>
    mired === null ? null : mired - miredFromKelvin(balance_K);

  return {
    keyfall: 1,
    title: document.title,
    setup: request.setup ?? null,
    camera: camera.id,
    whiteBalance_K,
    lamps: colours.map(({ lamp, mired, cct_K, duv }) => ({
      id: lamp.id,
      name: lamp.name,
      cct_K,
      mired,
      duv,
      filterLoss_stops: lamp.filterLoss_stops,
      offset_mired: from(mired, whiteBalance_K),
      splitOffset_mired: split && from(mired, split.whiteBalance_K),
    })),
    split: split && { ...split, cool: cool.map((white) => white.id), warm: warm.map((white) => white.id) },
  };
}

function mean(whites: readonly { readonly mired: number }[]): number {
  return whites.reduce((sum, { mired }) => sum + mired, 0) / whites.length;
}
