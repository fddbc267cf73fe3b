import { describe, expect, it } from 'vitest';
import { buildGeometry } from '../../../src/core/geometry/geometry.ts';
import type { Vec3 } from '../../../src/core/math/vec3.ts';
import { lampRays, skyRays, takenBy_lx } from '../../../src/core/transport/arriving-rays.ts';
import { directAt, isotropic, lampAt, modelOf, opaque, pane, sheetAt } from '../../support/light-models.ts';

const METER = { position_m: [0, 0, 0] as Vec3, facing: [0, 0, 1] as Vec3 };

describe('rays that arrive at a meter', () => {
  it('bring the light that the direct estimate finds, through panes and past solids', () => {
    const model = modelOf({
      lamps: [lampAt([0, 0, 4], [0, 0, 0], isotropic(1000), { shape: 'rectangle', halfSize_m: [0.5, 0.5] })],
      parts: [pane(sheetAt(0, 0, 1, 4, 4)), opaque(sheetAt(1, 0, 2, 2, 4))],
      panes: [0.7],
      extinction_per_m: 0.05,
      skyIlluminance_lx: 3,
    });
    for (const receptor of ['flat', 'dome'] as const) {
      const direct = directAt(model, METER, receptor);
      // Beside the lamp little is asked of the sky's own exactness.
      const skyAlone = directAt({ ...model, lamps: [] }, METER, receptor).sky;
      const own = (light: { flat_lx: number; dome_lx: number }) =>
        receptor === 'flat' ? light.flat_lx : light.dome_lx;
      const lamp = lampRays(model, 0, METER, receptor, 1024).total_lx;
      const sky = skyRays(model, METER, receptor, 4096).total_lx;
      // derived: the same integral with a thousand points; half of the face is blocked, so 1 % is its graining
      expect(Math.abs(lamp / own(direct.lamps[0]!) - 1)).toBeLessThan(0.01);
      expect(Math.abs(sky / own(skyAlone) - 1)).toBeLessThan(0.02);
    }
  });

  it('are taken by a body as far as it covers the source', () => {
    const model = modelOf({
      lamps: [lampAt([0, 0, 4], [0, 0, 0], isotropic(1000), { shape: 'rectangle', halfSize_m: [0.5, 0.5] })],
    });
    const rays = lampRays(model, 0, METER, 'flat', 1024);
    // derived: at half the distance a sheet that ends on the axis hides half of the face
    const half = buildGeometry([opaque(sheetAt(1, 0, 2, 2, 4))]);
    expect(Math.abs(takenBy_lx(half, rays, METER) / rays.total_lx - 0.5)).toBeLessThan(0.01);
    expect(takenBy_lx(buildGeometry([opaque(sheetAt(0, 0, 2, 4, 4))]), rays, METER)).toBeCloseTo(
      rays.total_lx,
      9,
    );
    expect(takenBy_lx(buildGeometry([opaque(sheetAt(0, 0, 5, 4, 4))]), rays, METER)).toBe(0);
  });
});
