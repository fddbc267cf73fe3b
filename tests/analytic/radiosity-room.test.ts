import { describe, expect, it } from 'vitest';
import { placementFrom } from '../../src/core/geometry/placement.ts';
import type { Part } from '../../src/core/geometry/shape.ts';
import { add, dot, length, normalize, scale, subtract, type Vec3 } from '../../src/core/math/vec3.ts';
import { BATCHES, indirectError_lx, newIndirect, refineIndirect } from '../../src/core/transport/indirect.ts';
import { newTracer } from '../../src/core/transport/tracer.ts';
import { isotropic, lampAt, modelOf, opaque } from '../support/light-models.ts';

/**
 * An independent solution of a whole room: radiosity (Goral, Torrance, Greenberg, Battaile 1984). Walls in patches,
 * B = ρ·(E_direct + Σ F·B), form factors by midpoints with near pairs subdivided, solved by iteration. Nothing of it
 * is shared with the path tracer but vector sums.
 */
const ROOM_m: Vec3 = [4, 3, 5];
const LAMP_m: Vec3 = [0.6, 0.5, -0.7];
const INTENSITY_cd = 500;
const REFLECTANCES = [0.7, 0.5, 0.3, 0.8, 0.6, 0.4];
const DIVISIONS = 10;

interface Wall {
  readonly centre: Vec3;
  readonly normal: Vec3;
  readonly u: Vec3;
  readonly v: Vec3;
  readonly halfU: number;
  readonly halfV: number;
}

const WALLS: readonly Wall[] = [0, 1, 2].flatMap((axis) =>
  [1, -1].map((sign): Wall => {
    const along = (a: number, k = 1): Vec3 => [0, 1, 2].map((i) => (i === a ? k : 0)) as unknown as Vec3;
    const [a, b] = [(axis + 1) % 3, (axis + 2) % 3];
    return {
      centre: along(axis, (sign * ROOM_m[axis]!) / 2),
      normal: along(axis, -sign),
      u: along(a),
      v: along(b),
      halfU: ROOM_m[a]! / 2,
      halfV: ROOM_m[b]! / 2,
    };
  }),
);

interface Patch {
  readonly wall: number;
  readonly centre: Vec3;
  readonly halfU: number;
  readonly halfV: number;
  B: number;
}

const pointOn = (wall: Wall, centre: Vec3, s: number, t: number): Vec3 =>
  add(add(centre, scale(wall.u, s)), scale(wall.v, t));

function patches(): Patch[] {
  return WALLS.flatMap((wall, w) => {
    const [hu, hv] = [wall.halfU / DIVISIONS, wall.halfV / DIVISIONS];
    return Array.from({ length: DIVISIONS ** 2 }, (_, i) => {
      const s = -wall.halfU + hu * (2 * (i % DIVISIONS) + 1);
      const t = -wall.halfV + hv * (2 * Math.floor(i / DIVISIONS) + 1);
      return { wall: w, centre: pointOn(wall, wall.centre, s, t), halfU: hu, halfV: hv, B: 0 };
    });
  });
}

/** Illuminance at a point from a patch of unit radiosity; near patches are taken in pieces. */
function factor(at: Vec3, normal: Vec3, { wall, centre, halfU, halfV }: Patch): number {
  const from = WALLS[wall]!;
  const near = length(subtract(centre, at)) < 6 * Math.max(halfU, halfV);
  const n = near ? 6 : 1;
  let sum = 0;
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < n; j++) {
      const q = pointOn(from, centre, halfU * ((2 * i + 1) / n - 1), halfV * ((2 * j + 1) / n - 1));
      const d = subtract(q, at);
      const r2 = dot(d, d);
      const [c1, c2] = [dot(d, normal), -dot(d, from.normal)];
      if (c1 > 0 && c2 > 0) sum += (c1 * c2) / (Math.PI * r2 * r2);
    }
  }
  return (sum * 4 * halfU * halfV) / (n * n);
}

function solvedRoom(): Patch[] {
  const all = patches();
  const direct = all.map(({ wall, centre }) => {
    const d = subtract(LAMP_m, centre);
    return (INTENSITY_cd * Math.max(0, dot(d, WALLS[wall]!.normal))) / length(d) ** 3;
  });
  const F = all.map((p) =>
    Float64Array.from(all, (q) => (p.wall === q.wall ? 0 : factor(p.centre, WALLS[p.wall]!.normal, q))),
  );
  for (let sweep = 0; sweep < 30; sweep++) {
    for (const [i, patch] of all.entries()) {
      let E = direct[i]!;
      for (const [j, q] of all.entries()) E += F[i]![j]! * q.B;
      patch.B = REFLECTANCES[patch.wall]! * E;
    }
  }
  return all;
}

describe('a room with a lamp', () => {
  it('has the bounce that a radiosity solution of our own gives', () => {
    const room = solvedRoom();
    const parts: Part[] = WALLS.map((wall, w) => {
      const placement = { ...placementFrom(wall.centre), x: wall.u, y: wall.v, z: wall.normal };
      return opaque({ kind: 'panel', placement, halfSize_m: [wall.halfU, wall.halfV], openings: [] }, w);
    });
    const model = modelOf({
      lamps: [lampAt(LAMP_m, [0, 0, 0], isotropic(INTENSITY_cd))],
      parts,
      surfaces: REFLECTANCES.map((rho) => ({ reflectance: [rho, rho, rho] as Vec3 })),
    });
    const tracer = newTracer(model);
    const meters: [Vec3, Vec3][] = [
      [
        [0, -1.4, 0],
        [0, 1, 0],
      ],
      [
        [1.2, 0.2, 1.5],
        [0, 0, -1],
      ],
      [
        [-1.5, 0.9, -2],
        [1, -0.3, 0.4],
      ],
      [
        [0.5, 0, 0.5],
        [1, 0, 0],
      ],
    ];
    for (const [position_m, facing] of meters) {
      const normal = normalize(facing);
      const wanted = room.reduce((sum, patch) => sum + factor(position_m, normal, patch) * patch.B, 0);
      const indirect = newIndirect(tracer, { position_m, facing: normal }, 3);
      refineIndirect(indirect, 1200);
      const got = indirect.flatByBatch.reduce((sum, batch) => sum + batch, 0) / (BATCHES * 1200);
      const error = indirectError_lx(indirect, 'flat');
      // The patches themselves are good to about 1 %.
      expect(Math.abs(got - wanted), `${got} ± ${error} against ${wanted}`).toBeLessThan(
        1.5 * error + 0.015 * wanted,
      );
      expect(error / wanted).toBeLessThan(0.03);
    }
  });
});
