import { keyToFill, rimToKey } from '../../core/exposure/lighting-ratio.ts';
import { distance } from '../../core/math/vec3.ts';
import type { MarkReport, MeterReport } from '../../scene/meter/meter-scene.ts';
import type { SceneDocument } from '../../scene/schema/document.ts';

/** Which lamp is what for one mark, as far as a person has said; null: none is. */
export interface Roles {
  readonly key?: string | null;
  readonly fill?: string | null;
  readonly rim?: string | null;
}

export interface Ratios {
  readonly roles: { readonly key: string | null; readonly fill: string | null; readonly rim: string | null };
  /** (key + fill):fill at this mark; null without both. */
  readonly keyToFill: number | null;
  /** rim:key, the rim with the meter held to it at the mark beside; null without both. */
  readonly rimToKey: number | null;
  /** Lamps that may be the rim here: those that a mark beside this one faces. */
  readonly rims: readonly { readonly lamp: string; readonly mark: string }[];
}

/** A mark so near is on the same head: no figure is wider at the shoulders. Common practice, no source. */
const BESIDE_m = 0.6;
/** A fill that gives less than this share of the key is none. */
const LEAST_FILL = 1e-3;

/**
 * Ratios at one mark. Where nobody has said otherwise, and the meter is held to the camera as for a face, the key is the lamp
 * that gives most there, the fill the next, and the rim the lamp that the nearest mark beside faces.
 */
export function ratiosAt(
  report: MeterReport,
  document: SceneDocument,
  mark: MarkReport,
  said: Roles = {},
): Ratios {
  const lamps = mark.lamps.toSorted((a, b) => b.illuminance_lx - a.illuminance_lx);
  const lit = (id: string | null | undefined) => lamps.some((lamp) => lamp.id === id);
  const lightOf = (at: MarkReport, id: string) =>
    at.lamps.find((lamp) => lamp.id === id)?.illuminance_lx ?? 0;
  const chosen = (id: string | null | undefined, otherwise: () => string | null) =>
    id === null || (id !== undefined && lit(id)) ? id : mark.facing === 'camera' ? otherwise() : null;

  const rims = rimMarks(report, document, mark).filter(({ lamp }) => lit(lamp));
  const rim = chosen(said.rim, () => rims.find(({ lamp }) => lamp !== said.key)?.lamp ?? null);
  const key = chosen(
    said.key,
    () =>
      lamps.find(({ id, illuminance_lx }) => illuminance_lx > 0 && id !== rim && id !== said.fill)?.id ??
      null,
  );
  const fill = chosen(said.fill, () => {
    const next = lamps.find(({ id }) => id !== key && id !== rim);
    return next && key !== null && next.illuminance_lx > LEAST_FILL * lightOf(mark, key) ? next.id : null;
  });

  const rimMark = report.marks.find(({ id }) => id === rims.find(({ lamp }) => lamp === rim)?.mark);
  const both = (ratio: number) => (Number.isFinite(ratio) && ratio > 0 ? ratio : null);
  return {
    roles: { key, fill, rim },
    keyToFill:
      key !== null && fill !== null && key !== fill
        ? both(keyToFill(lightOf(mark, key), lightOf(mark, fill)))
        : null,
    rimToKey:
      rim !== null && rimMark && key !== null && rim !== key
        ? both(rimToKey(lightOf(rimMark, rim), lightOf(mark, key)))
        : null,
    rims,
  };
}

/** Marks beside this one that face a lamp, nearest first, one for each lamp. */
function rimMarks(
  { marks }: MeterReport,
  document: SceneDocument,
  mark: MarkReport,
): Ratios['rims'][number][] {
  const placeOf = (id: string) => document.marks?.find((one) => one.id === id)?.position_m;
  const here_m = placeOf(mark.id);
  if (!here_m) return [];
  const found = marks.flatMap(({ id, facing }) => {
    const lamp = /^lamp:(.+)$/.exec(facing)?.[1];
    const place_m = placeOf(id);
    if (lamp === undefined || !place_m) return [];
    const away_m = distance(here_m, place_m);
    return away_m <= BESIDE_m ? [{ lamp, mark: id, away_m }] : [];
  });
  const nearest = found.toSorted((a, b) => a.away_m - b.away_m);
  return nearest
    .filter(({ lamp }, i) => nearest.findIndex((one) => one.lamp === lamp) === i)
    .map(({ lamp, mark: id }) => ({ lamp, mark: id }));
}
