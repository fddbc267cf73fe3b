import { buildGeometry } from '../../src/core/geometry/geometry.ts';
import type { LightModel } from '../../src/core/light-model/light-model.ts';
import { degreesFromRadians, radiansFromDegrees } from '../../src/core/math/angle.ts';
import { add, cross, normalize, subtract, type Vec3 } from '../../src/core/math/vec3.ts';
import { linearRgbFromXyz } from '../../src/core/picture/linear-rgb.ts';
import { shapeGeometry } from '../../src/editor/view/shape-geometry.ts';
import { lensOf } from '../../src/scene/camera/scene-camera.ts';
import type { Camera } from '../../src/scene/schema/camera.ts';

/** A light model as meshes, materials and spot lights, in plain data: what a general-purpose path tracer takes of it. */
export interface EquivalentScene {
  /** Triangles of one material: three numbers a corner. */
  readonly surfaces: readonly {
    readonly positions: readonly number[];
    readonly normals: readonly number[];
    readonly rgb: Vec3;
    readonly metal: boolean;
    readonly coated: boolean;
    readonly roughness: number;
  }[];
  readonly lamps: readonly {
    readonly position_m: Vec3;
    readonly aim_m: Vec3;
    readonly peak_cd: number;
    readonly rgb: Vec3;
    /** Half the field angle, and what part of it the beam's edge takes, 0 to 1. */
    readonly half_rad: number;
    readonly softness: number;
    readonly radius_m: number;
  }[];
  readonly camera: { readonly position_m: Vec3; readonly look_m: Vec3; readonly vertical_deg: number };
}

/** Surfaces and lamps alone: what both renderers can be given. */
export function surfacesAndLamps(model: LightModel): LightModel {
  const parts = model.parts.filter(({ substance }) => substance.kind === 'material');
  return {
    ...model,
    parts,
    geometry: buildGeometry(parts),
    panes: [],
    paneDirect: new Float64Array(0),
    haze: null,
    sky: null,
  };
}

/** The like of a model of surfaces and lamps, from a camera without depth of field. */
export function equivalentScene(model: LightModel, camera: Camera): EquivalentScene {
  const { halfHeight } = lensOf(camera);
  return {
    surfaces: model.surfaces.flatMap(({ reflectance, optics }, index) => {
      const meshes = model.parts
        .filter(({ substance }) => substance.kind === 'material' && substance.index === index)
        .map(({ shape }) => meshOf(shape));
      if (meshes.length === 0) return [];
      return {
        positions: meshes.flatMap(({ positions }) => positions),
        normals: meshes.flatMap(({ normals }) => normals),
        rgb: reflectance,
        metal: optics.kind === 'metal',
        coated: optics.kind === 'coated',
        // Of both: α is the square of the roughness.
        roughness: Math.sqrt(optics.alpha),
      };
    }),
    lamps: model.lamps.filter(({ gain }) => gain > 0).map(spotOf),
    camera: {
      position_m: camera.position_m,
      look_m: camera.look_m,
      vertical_deg: degreesFromRadians(2 * Math.atan(halfHeight)),
    },
  };
}

function meshOf(shape: LightModel['parts'][number]['shape']) {
  if (shape.kind === 'triangle') {
    const { a_m, b_m, c_m } = shape;
    const normal = normalize(cross(subtract(b_m, a_m), subtract(c_m, a_m)));
    return { positions: [...a_m, ...b_m, ...c_m], normals: [...normal, ...normal, ...normal] };
  }
  const geometry = shapeGeometry(shape);
  const numbers = (name: string) => Array.from(geometry.getAttribute(name).array);
  return { positions: numbers('position'), normals: numbers('normal') };
}

function spotOf({ frame, face, distribution, gain, colour_XYZ }: LightModel['lamps'][number]) {
  const beam = distribution.kind === 'beam' ? distribution : null;
  const field_deg = Math.min(175, beam?.field_deg ?? 170);
  return {
    position_m: frame.origin_m,
    aim_m: add(frame.origin_m, frame.a),
    peak_cd: gain * peakOf(distribution),
    rgb: linearRgbFromXyz(colour_XYZ).map((x) => Math.max(0, x)) as unknown as Vec3,
    half_rad: radiansFromDegrees(field_deg / 2),
    softness: beam ? 1 - beam.beam_deg / beam.field_deg : 1,
    radius_m:
      face.shape === 'rectangle'
        ? Math.sqrt((4 * face.halfSize_m[0] * face.halfSize_m[1]) / Math.PI)
        : face.shape === 'octagon'
          ? face.apothem_m
          : face.radius_m,
  };
}

function peakOf(distribution: LightModel['lamps'][number]['distribution']): number {
  return distribution.kind === 'table' ? Math.max(...distribution.candela) : distribution.peak_cd;
}
