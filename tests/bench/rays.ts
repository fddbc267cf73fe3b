import { buildGeometry, type Geometry } from '../../src/core/geometry/geometry.ts';
import { placementFrom } from '../../src/core/geometry/placement.ts';
import { transmittance } from '../../src/core/geometry/ray-query.ts';
import { transmittanceByLoop } from '../../src/core/geometry/ray-query-loop.ts';
import type { Part, Shape } from '../../src/core/geometry/shape.ts';
import { mixed32 } from '../../src/core/math/kronecker.ts';
import type { Vec3 } from '../../src/core/math/vec3.ts';
import { ms, type Row, timed } from './report.ts';

const NO_PANES = new Float64Array(0);
const RAYS = 20_000;

export function benchRays(): Row[] {
  return [100, 1_000, 10_000, 100_000].map((count) => {
    const parts = mixedShapes(count);
    let geometry = buildGeometry([]);
    const build = timed(3, () => {
      geometry = buildGeometry(parts);
    });
    const rays = randomRays(RAYS);
    const bvh = timed(3, () => shoot(geometry, rays, RAYS, transmittance));
    // The loop is slow with many shapes: fewer rays tell its rate as well.
    const few = Math.max(20, Math.min(RAYS, Math.round(2e6 / count)));
    const loop = timed(3, () => shoot(geometry, rays, few, transmittanceByLoop));
    const [fast, slow] = [RAYS / bvh.median_ms / 1000, few / loop.median_ms / 1000];
    return {
      shapes: String(count),
      'hierarchy, Mrays/s': fast.toFixed(2),
      'loop, Mrays/s': slow.toFixed(4),
      ratio: (fast / slow).toFixed(1),
      build: ms(build.median_ms),
    };
  });
}

function shoot(geometry: Geometry, rays: Float64Array, count: number, query: typeof transmittance): number {
  let open = 0;
  for (let i = 0; i < 6 * count; i += 6) {
    const [x, y, z] = [rays[i]!, rays[i + 1]!, rays[i + 2]!];
    open += query(geometry, x, y, z, rays[i + 3]! - x, rays[i + 4]! - y, rays[i + 5]! - z, 1e-6, 1, NO_PANES);
  }
  return open;
}

let seed = 0;
const between = (low: number, high: number) => low + ((high - low) * mixed32(++seed)) / 2 ** 32;

/** Shapes strewn over a box that grows with their number, as dense as a set: most rays are blocked sooner or later. */
function mixedShapes(count: number): Part[] {
  const reach = 4 * Math.cbrt(count / 100);
  return Array.from({ length: count }, (_, i) => {
    const at: Vec3 = [between(-reach, reach), between(-reach, reach), between(-reach, reach)];
    const placement = placementFrom(at, [between(0, 360), between(0, 360), between(0, 360)]);
    const size = between(0.05, 0.4);
    return {
      shape: shapeOf(i % 6, placement, at, size),
      substance: { kind: 'material', index: 0 },
      owner: 0,
    };
  });
}

function shapeOf(
  kind: number,
  placement: ReturnType<typeof placementFrom>,
  centre_m: Vec3,
  size: number,
): Shape {
  switch (kind) {
    case 0:
      return { kind: 'box', placement, halfSize_m: [size, size / 2, size / 3] };
    case 1:
      return { kind: 'cylinder', placement, radius_m: size / 3, halfHeight_m: size };
    case 2:
      return { kind: 'sphere', centre_m, radius_m: size / 2 };
    case 3:
      return { kind: 'capsule', placement, radius_m: size / 4, halfLength_m: size };
    case 4:
      return {
        kind: 'panel',
        placement,
        halfSize_m: [size, size],
        openings: [{ left_m: -size / 2, bottom_m: -size / 2, right_m: size / 2, top_m: size / 2 }],
      };
    default: {
      const [x, y, z] = centre_m;
      return { kind: 'triangle', a_m: centre_m, b_m: [x + size, y, z], c_m: [x, y + size, z + size] };
    }
  }
}

function randomRays(count: number): Float64Array {
  return Float64Array.from({ length: 6 * count }, () => between(-5, 5));
}
