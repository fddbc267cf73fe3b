import { meshTriangles } from '../../core/geometry/mesh.ts';
import { placementFrom } from '../../core/geometry/placement.ts';
import type { Part, Shape, Substance } from '../../core/geometry/shape.ts';
import { vehicleParts } from '../../core/geometry/vehicle.ts';
import type { VehicleSpec } from '../../core/geometry/vehicle-spec.ts';
import type { SceneFiles } from '../files/scene-files.ts';
import type { Solid, VehicleSolid } from '../schema/solid.ts';
import type { Palette } from './palette.ts';

/** The exact shapes of a solid and what they are made of. `owner` is the solid's index among the model's owners. */
export function solidParts(solid: Solid, owner: number, palette: Palette, files: SceneFiles): Part[] {
  const placement = placementFrom(solid.position_m, solid.rotation_deg);
  const made = (shape: Shape, substance: Substance): Part => ({ shape, substance, owner });
  const opaque = (name: string): Substance => ({ kind: 'material', index: palette.surface(name) });
  const glazed = (name: string): Substance => ({ kind: 'pane', index: palette.pane(name) });

  switch (solid.shape) {
    case 'box': {
      const [x, y, z] = solid.size_m;
      return [made({ kind: 'box', placement, halfSize_m: [x / 2, y / 2, z / 2] }, opaque(solid.material))];
    }
    case 'cylinder': {
      const { radius_m, height_m } = solid;
      return [
        made({ kind: 'cylinder', placement, radius_m, halfHeight_m: height_m / 2 }, opaque(solid.material)),
      ];
    }
    case 'sphere':
      return [
        made(
          { kind: 'sphere', centre_m: solid.position_m, radius_m: solid.radius_m },
          opaque(solid.material),
        ),
      ];
    case 'capsule': {
      const { radius_m, length_m } = solid;
      const halfLength_m = Math.max(0, length_m / 2 - radius_m);
      return [made({ kind: 'capsule', placement, radius_m, halfLength_m }, opaque(solid.material))];
    }
    case 'panel': {
      const [width, height] = solid.size_m;
      const openings = (solid.openings ?? []).map((o) => ({
        left_m: o.left_m - width / 2,
        bottom_m: o.bottom_m - height / 2,
        right_m: o.left_m + o.width_m - width / 2,
        top_m: o.bottom_m + o.height_m - height / 2,
      }));
      const shape: Shape = { kind: 'panel', placement, halfSize_m: [width / 2, height / 2], openings };
      return [made(shape, opaque(solid.material))];
    }
    case 'pane': {
      const [width, height] = solid.size_m;
      const shape: Shape = { kind: 'panel', placement, halfSize_m: [width / 2, height / 2], openings: [] };
      return [made(shape, glazed(solid.pane))];
    }
    case 'vehicle': {
      const outside = opaque(solid.material);
      const inside = solid.inside === undefined ? outside : opaque(solid.inside);
      return vehicleParts(vehicleSpec(solid), placement).map((part) => {
        if (part.role === 'pane') return made(part.shape, glazed(solid.windows![part.windowRun]!.pane!));
        return made(part.shape, part.role === 'inside' ? inside : outside);
      });
    }
    case 'mesh': {
      const mesh = files.meshes.get(solid.file);
      if (!mesh) throw new Error(`mesh "${solid.file}" has not been read: read the scene's files first`);
      const material = opaque(solid.material);
      return meshTriangles(mesh, placement, solid.scale ?? 1).triangles.map((shape) => made(shape, material));
    }
  }
}

const DEFAULT_WALL_m = 0.06;
const DEFAULT_ROOF_RADIUS_m = 0.3;
/** A vehicle of the document with its defaults, as the generator takes it. */
export function vehicleSpec(solid: VehicleSolid): VehicleSpec {
  return {
    size_m: solid.size_m,
    wall_m: solid.wall_m ?? DEFAULT_WALL_m,
    roofRadius_m: solid.roofRadius_m ?? DEFAULT_ROOF_RADIUS_m,
    inside: solid.inside !== undefined,
    windows: (solid.windows ?? []).map((run) => ({
      ...run,
      pitch_m: run.pitch_m ?? run.width_m,
      glazed: run.pane !== undefined,
    })),
    doors: (solid.doors ?? []).map((run) => ({
      ...run,
      pitch_m: run.pitch_m ?? run.width_m,
      open: run.open ?? false,
    })),
  };
}
