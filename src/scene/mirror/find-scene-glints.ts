import { zeroOf } from '../../core/exposure/zero.ts';
import type { LightModel } from '../../core/light-model/light-model.ts';
import type { Vec3 } from '../../core/math/vec3.ts';
import { findGlints } from '../../core/mirror/find-glints.ts';
import { findPaneImages, type PaneImage } from '../../core/mirror/find-pane-images.ts';
import { burnsInFrame, CLIP_stops, type Glint, type GlintView } from '../../core/mirror/glint.ts';
import { type LampInView, lampsInView } from '../../core/mirror/lamps-in-view.ts';
import { roughGlosses } from '../../core/mirror/reflectors-of.ts';
import { VEIL_UNCERTAINTY_stops, VEILING_GLARE_INDEX, veil_cd_m2 } from '../../core/mirror/veiling-glare.ts';
import { calibrationOf, chosenCamera, exposureOf, lensOf } from '../camera/scene-camera.ts';
import { problemAt, SceneError } from '../problems/problem.ts';
import type { Camera } from '../schema/camera.ts';
import type { SceneDocument } from '../schema/document.ts';
import { type PlaceOnSolid, placeOnSolid } from './place-on-solid.ts';

/** Lamps mirrored, seen and striking the lens, for one camera: the answer of `keyfall glints --json` but for the cures. */
export interface GlintReport {
  readonly keyfall: 1;
  readonly title: string;
  readonly setup: string | null;
  readonly camera: string;
  /** Only where readings of the night have corrected lamps and haze: by how many. */
  readonly corrected?: { readonly readings: number };
  readonly zero_cd_m2: number;
  /** White in the picture, over middle grey. */
  readonly clip_stops: number;
  readonly glints: readonly SceneGlint[];
  /** Lamps in panes, were these clean, plain glass: the light of the scene does not hold them. */
  readonly panes: readonly ScenePaneImage[];
  readonly lamps: readonly SceneLampInView[];
  readonly veil: {
    readonly index: number;
    readonly luminance_cd_m2: number;
    readonly stops: number;
    readonly uncertainty_stops: number;
  };
  /** Things left out because their gloss is too rough to mirror. */
  readonly tooRough: readonly string[];
  readonly lampsOff: readonly string[];
}

export interface SceneGlint extends Omit<Glint, 'lamp' | 'owner' | 'part'> {
  readonly lamp: string;
  readonly solid: string;
  readonly lampName: string;
  readonly solidName: string;
  readonly place: PlaceOnSolid;
  /** White in the picture, and in it. */
  readonly burns: boolean;
  /** ± of `stops` from the inputs. */
  readonly uncertainty_stops: number;
}

export interface ScenePaneImage extends Omit<PaneImage, 'lamp' | 'owner' | 'part' | 'pane'> {
  readonly lamp: string;
  readonly solid: string;
  readonly pane: string;
  readonly lampName: string;
  readonly solidName: string;
  readonly paneName: string;
  readonly place: PlaceOnSolid;
}

export interface SceneLampInView extends Omit<LampInView, 'lamp' | 'hiddenBy'> {
  readonly lamp: string;
  readonly name: string;
  /** Name of what stands before its centre. */
  readonly hiddenBy: string | null;
  /** What it alone lays over the picture. */
  readonly veil_cd_m2: number;
  readonly veil_stops: number;
}

/**
 * The face of a real lamp is brighter in its middle than at its rim, and no finish is as its data says: ± of a mirror image
 * beside that of the photometry (common practice, no source).
 */
const FACE_AND_FINISH_stops = 1;
const MOST_HAZE_stops = 1;

/**
 * Of a scene whose setup has been applied and which is compiled to `model`.
 * @throws SceneError where there is no camera, or no lamp is lit
 */
export function findSceneGlints(
  document: SceneDocument,
  model: LightModel,
  request: {
    readonly setup?: string | undefined;
    readonly camera?: string | undefined;
    /** Readings of the night that the light model is corrected by already. */
    readonly readings?: number | undefined;
  } = {},
): GlintReport {
  const camera = chosenCamera(document, request.camera);
  const lit = model.lamps.some(({ gain }) => gain > 0);
  if (!lit) throw new SceneError([noLight(document)]);
  const view = glintView(document, camera);
  const placed = (owner: number, point_m: Vec3, normal: Vec3) =>
    placeOnSolid(document, model.owners[owner]!.id, point_m, normal);
  const lamps = lampsInView(model, view);
  const veil = veil_cd_m2(lamps.reduce((sum, { lens_lx }) => sum + lens_lx, 0));
  return {
    keyfall: 1,
    title: document.title,
    setup: request.setup ?? null,
    camera: camera.id,
    ...(request.readings ? { corrected: { readings: request.readings } } : {}),
    zero_cd_m2: view.zero_cd_m2,
    clip_stops: CLIP_stops,
    glints: findGlints(model, view).map((glint): SceneGlint => {
      const { lamp: index, owner, part: _, ...rest } = glint;
      const lamp = model.lamps[index]!;
      return {
        ...named(model, index, owner),
        place: placed(owner, glint.point_m, glint.normal),
        ...rest,
        burns: burnsInFrame(glint),
        uncertainty_stops: Math.hypot(
          lamp.photometryUncertainty_stops,
          FACE_AND_FINISH_stops,
          Math.min(MOST_HAZE_stops, glint.hazeLoss_stops),
        ),
      };
    }),
    panes: findPaneImages(model, view).map(({ lamp, owner, part: _, pane, ...rest }) => ({
      ...named(model, lamp, owner),
      pane: model.panes[pane]!.id,
      paneName: model.panes[pane]!.name,
      place: placed(owner, rest.point_m, rest.normal),
      ...rest,
    })),
    lamps: lamps.map(({ lamp, hiddenBy, ...rest }) => ({
      lamp: model.lamps[lamp]!.id,
      name: model.lamps[lamp]!.name,
      hiddenBy: hiddenBy < 0 ? null : model.owners[hiddenBy]!.name,
      ...rest,
      veil_cd_m2: veil_cd_m2(rest.lens_lx),
      veil_stops: Math.log2(veil_cd_m2(rest.lens_lx) / view.zero_cd_m2),
    })),
    veil: {
      index: VEILING_GLARE_INDEX,
      luminance_cd_m2: veil,
      stops: Math.log2(veil / view.zero_cd_m2),
      uncertainty_stops: VEIL_UNCERTAINTY_stops,
    },
    tooRough: roughGlosses(model).map((owner) => model.owners[owner]!.name),
    lampsOff: model.lamps.filter(({ gain }) => gain <= 0).map(({ name }) => name),
  };
}

export function glintView(document: SceneDocument, camera: Camera): GlintView {
  const zero = zeroOf(exposureOf(camera), calibrationOf(document));
  return { camera: lensOf(camera), zero_cd_m2: zero.luminance_cd_m2 };
}

function named(model: LightModel, lamp: number, owner: number) {
  const [{ id, name }, solid] = [model.lamps[lamp]!, model.owners[owner]!];
  return { lamp: id, solid: solid.id, lampName: name, solidName: solid.name };
}

function noLight(document: SceneDocument) {
  const some = (document.lamps ?? []).length > 0;
  return problemAt(document, ['lamps'], {
    found: some ? 'no lamp that is lit' : 'no lamps',
    expected: 'at least one lamp with a level above 0, because it is lamps that are mirrored',
  });
}
