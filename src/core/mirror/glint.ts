import type { ThinLens } from '../camera/thin-lens.ts';
import type { Vec3 } from '../math/vec3.ts';
import { DEFAULT_TONE_RANGE } from '../picture/tone-curve.ts';
import type { PolarisedReflectance } from '../surfaces/fresnel.ts';

/**
 * A lamp seen in a glossy surface. Lamp, part and owner are indices into the light model.
 *
 * Where the finish is a mirror's, its luminance is F·L of the lamp's face, however far and however curved: curvature makes
 * an image smaller, not dimmer. Where an image is smaller than a pixel of some frame, that pixel shows less.
 */
export interface Glint {
  readonly lamp: number;
  readonly part: number;
  readonly owner: number;
  /**
   * `image`: some of the lamp's face is mirrored; `sheen`: its image is off the surface or hidden, but the lobe of the
   * finish spreads its light to where it is seen.
   */
  readonly kind: 'image' | 'sheen';
  /** Where the lamp's centre is mirrored; the nearest place in frame or at least in sight where that is not seen. */
  readonly point_m: Vec3;
  /** Unit, on the camera's side. */
  readonly normal: Vec3;
  readonly incidence_deg: number;
  /** Of unpolarised light of this lamp at this incidence, exact. */
  readonly reflectance: number;
  readonly polarised: PolarisedReflectance;
  readonly inFrame: boolean;
  /** Place of the point in the frame, 0..1 from the left and from the top when in frame; null behind the camera. */
  readonly pixel: readonly [number, number] | null;
  readonly toCamera_m: number;
  readonly toLamp_m: number;
  /** What haze takes over both. */
  readonly hazeLoss_stops: number;
  /** Toward the camera at `point_m`, with the spread of the finish, haze, panes and what stands in the way. */
  readonly luminance_cd_m2: number;
  /** The same of a perfectly smooth finish, F·L of the face: its limit as roughness goes to none. */
  readonly mirror_cd_m2: number;
  /** Over middle grey. */
  readonly stops: number;
  /** The least that an ideal polariser can leave of it, exposure as before; −Infinity at Brewster's angle. */
  readonly polarised_stops: number;
  /** Share of the lamp's face whose mirror image is on the surface and clear on both legs. */
  readonly faceShare: number;
  /** Size on the surface of what lies above the clip point, blocked or not; null where nothing does or not asked for. */
  readonly patch: GlintPatch | null;
  /** The surface is curved or a mesh: a small error of its shape moves the glint far. */
  readonly approximate: boolean;
}

export interface GlintPatch {
  /** Lengthwise, in the plane of incidence, and across, metres. */
  readonly along_m: number;
  readonly across_m: number;
  /** Widest extent in the picture, as a share of its width. */
  readonly ofFrameWidth: number;
}

export interface GlintView {
  readonly camera: ThinLens;
  /** Luminance of middle grey. */
  readonly zero_cd_m2: number;
}

export interface GlintOptions {
  /** From so many stops over middle grey a pixel is white (where the picture's tone curve ends). */
  readonly clip_stops?: number;
  /** Dimmer glints are left out. */
  readonly least_stops?: number;
  /** Only these lamps, by index. */
  readonly lamps?: readonly number[];
  /** Only what is in frame. */
  readonly inFrameOnly?: boolean;
  /** Leave out the patch, which costs as much as the rest. */
  readonly withoutPatch?: boolean;
}

export const CLIP_stops = DEFAULT_TONE_RANGE.white_stops;
export const LEAST_stops = 0;

/** White in the picture: what a cure must take away. */
export function burnsInFrame(glint: Glint, clip_stops = CLIP_stops): boolean {
  return glint.inFrame && glint.stops >= clip_stops;
}
