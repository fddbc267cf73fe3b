import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { mixed32 } from '../../src/core/math/kronecker.ts';
import { seededRandom, startPath } from '../../src/core/math/random.ts';
import type { Vec3 } from '../../src/core/math/vec3.ts';
import { newConnection } from '../../src/core/transport/connection.ts';
import { directLight } from '../../src/core/transport/direct.ts';
import { connectHaze } from '../../src/core/transport/haze-connection.ts';
import { BATCHES, indirectError_lx, newIndirect, refineIndirect } from '../../src/core/transport/indirect.ts';
import { newTracer } from '../../src/core/transport/tracer.ts';
import { isotropic, lampAt, modelOf, opaque } from '../support/light-models.ts';

const SEED = 11;

describe('light scattered once along a line of sight', () => {
  it('agrees with the airlight table within 1 %', () => {
    // derived: quadrature to 1e-10 (file header; Sun et al. 2005, Pegoraro & Parker 2009); every ninth of the 216 rows
    const rows = readFileSync(new URL('../fixtures/airlight-point-source.csv', import.meta.url), 'utf8')
      .split('\n')
      .filter((line) => /^[\d.]/.test(line))
      .map((line) => line.split(',').map(Number) as [number, number, number, number, number, number, number])
      .filter((_, i) => i % 9 === 0);
    expect(rows.length).toBe(24);
    const found = newConnection();
    for (const [sigma, albedo, g, x0, h, D, wanted] of rows) {
      const lamp = lampAt([x0, h, 0], [x0, 0, 0], isotropic(1e4));
      const tracer = newTracer(modelOf({ lamps: [lamp], extinction_per_m: sigma, albedo, anisotropy: g }));
      const random = seededRandom(mixed32(SEED + Math.round(1e4 * sigma + x0)));
      const n = 40_000;
      let L = 0;
      for (let i = 0; i < n; i++) {
        startPath(random, i);
        if (connectHaze(tracer, random, 0, 0, 0, 1, 0, 0, D, 1, found)) L += found.g / n;
      }
      expect(Math.abs(L / 1e4 / wanted - 1), `σ ${sigma}, g ${g}, x₀ ${x0}, h ${h}, D ${D}`).toBeLessThan(
        0.01,
      );
    }
  });
});

describe('multiple scattering', () => {
  it('loses nothing: inside a black sphere all of the lamp’s light arrives, whatever the haze', () => {
    // derived: albedo 1 and a lamp of Φ = 4πI at the centre of a black sphere: by symmetry every point of the wall gets
    // I/R², straight and scattered together, for any extinction and any phase function
    for (const [sigma, g] of [
      [0.05, 0],
      [0.3, 0.8],
      [0.6, 0.5],
    ] as const) {
      const R = 4;
      const model = modelOf({
        lamps: [lampAt([0, 0, 0], [1, 0, 0], isotropic(1600))],
        parts: [opaque({ kind: 'sphere', centre_m: [0, 0, 0], radius_m: R })],
        extinction_per_m: sigma,
        albedo: 1,
        anisotropy: g,
      });
      const meter = { position_m: [0, R - 1e-4, 0] as Vec3, facing: [0, -1, 0] as Vec3 };
      const direct = directLight(model, meter, { receptor: 'flat', error_stops: 0.001, maxSamples: 1 << 14 });
      const indirect = newIndirect(newTracer(model), meter, SEED);
      refineIndirect(indirect, 3000);
      const scattered =
        indirect.flatByBatch.reduce((sum, batch) => sum + batch, 0) / (BATCHES * indirect.paths);
      const error = indirectError_lx(indirect, 'flat');
      const total = direct.lamps[0]!.flat_lx + scattered;
      expect(error / 100, `σ ${sigma}`).toBeLessThan(0.05);
      expect(Math.abs(total - 100), `σ ${sigma}, g ${g}: ${total} ± ${error}`).toBeLessThan(
        1.6 * error + 0.3,
      );
    }
  });
});
