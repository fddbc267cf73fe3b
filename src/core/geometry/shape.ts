import type { Vec3 } from '../math/vec3.ts';
import type { Placement } from './placement.ts';

/** A rectangle in a panel's own xy-plane, metres from the panel's centre. */
export interface Rectangle {
  readonly left_m: number;
  readonly bottom_m: number;
  readonly right_m: number;
  readonly top_m: number;
}

/**
 * The exact shapes the solver knows. Everything in a document (solids, vehicles, figures, meshes) becomes a list of
 * these, so that one ray routine and one hierarchy serve all. Local frames: a cylinder's, capsule's and arc's axis is
 * local y; a panel lies in local xy with its front along +z; an arc is the part of an open cylindrical sheet from one
 * angle up to another (through 360 where the second is the smaller), measured from local +x toward local +z, its
 * front away from the axis; a triangle's front is the side from which a, b, c run counter-clockwise.
 */
export type Shape =
  | { readonly kind: 'box'; readonly placement: Placement; readonly halfSize_m: Vec3 }
  | {
      readonly kind: 'cylinder';
      readonly placement: Placement;
      readonly radius_m: number;
      readonly halfHeight_m: number;
    }
  | { readonly kind: 'sphere'; readonly centre_m: Vec3; readonly radius_m: number }
  | {
      readonly kind: 'capsule';
      readonly placement: Placement;
      readonly radius_m: number;
      /** Half the straight part: the whole capsule is 2·(halfLength_m + radius_m) long. */
      readonly halfLength_m: number;
    }
  | {
      readonly kind: 'panel';
      readonly placement: Placement;
      readonly halfSize_m: readonly [number, number];
      readonly openings: readonly Rectangle[];
      /** Radius that rounds off the two corners at local +y, as the end wall of a vehicle needs; absent: square. */
      readonly topRadius_m?: number;
    }
  | {
      readonly kind: 'arc';
      readonly placement: Placement;
      readonly radius_m: number;
      readonly halfHeight_m: number;
      readonly from_deg: number;
      readonly to_deg: number;
    }
  | { readonly kind: 'triangle'; readonly a_m: Vec3; readonly b_m: Vec3; readonly c_m: Vec3 };

/** What a shape is made of: an opaque material or a pane, as an index into the light model's tables. */
export type Substance =
  | { readonly kind: 'material'; readonly index: number }
  | { readonly kind: 'pane'; readonly index: number };

/** One shape of the scene with what it is made of and whose part it is (an index into the model's owners). */
export interface Part {
  readonly shape: Shape;
  readonly substance: Substance;
  readonly owner: number;
}
