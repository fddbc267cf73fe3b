import { describe, expect, it } from 'vitest';
import { placementFrom } from '../../src/core/geometry/placement.ts';
import type { Part } from '../../src/core/geometry/shape.ts';
import type { Face } from '../../src/core/lamps/face.ts';
import { mixed32 } from '../../src/core/math/kronecker.ts';
import { normalize, type Vec3 } from '../../src/core/math/vec3.ts';
import { directLight } from '../../src/core/transport/direct.ts';
import { lampAt, modelOf, opaque } from '../support/light-models.ts';

const SEED = 20_270_304;
const CASES = 240;
const NEARLY_EXACT = { receptor: 'dome', error_stops: 1e-9, maxSamples: 1 << 14 } as const;

/** Seeded uniform numbers. */
function randomFrom(seed: number): () => number {
  let n = seed;
  return () => mixed32(n++) / 2 ** 32;
}

/** A soft lamp and a few bars, boxes and balls at random between it and the meter. */
function randomCase(index: number) {
  const random = randomFrom(mixed32(SEED + index));
  const between = (low: number, high: number) => low + (high - low) * random();
  const face: Face =
    random() < 0.5
      ? { shape: 'disc', radius_m: between(0.1, 0.8) }
      : { shape: 'rectangle', halfSize_m: [between(0.1, 0.6), between(0.1, 0.6)] };
  const parts: Part[] = Array.from({ length: 1 + Math.floor(4 * random()) }, () => {
    const at: Vec3 = [between(-0.5, 0.5), between(-0.5, 0.5), between(1, 3)];
    if (random() < 0.3) return opaque({ kind: 'sphere', centre_m: at, radius_m: between(0.05, 0.3) });
    const placement = placementFrom(at, [between(0, 90), between(0, 90), between(0, 90)]);
    return opaque({ kind: 'box', placement, halfSize_m: [between(0.02, 0.4), between(0.02, 0.4), 0.02] });
  });
  const lamp = lampAt(
    [0, 0, 4],
    [0, 0, 0],
    { kind: 'beam', peak_cd: 2000, beam_deg: 60, field_deg: 100 },
    face,
  );
  const meter = { position_m: [0, 0, 0] as Vec3, facing: normalize([between(-1, 1), between(-1, 1), 1]) };
  return { model: modelOf({ lamps: [lamp], parts }), meter };
}

describe(`the stated error of direct light (seed ${SEED})`, () => {
  it('covers the true value at least 92 times in a hundred', () => {
    let covered = 0;
    let shadowed = 0;
    for (let i = 0; i < CASES; i++) {
      const { model, meter } = randomCase(i);
      const truth = directLight(model, meter, NEARLY_EXACT);
      const quick = directLight(model, meter, { ...NEARLY_EXACT, maxSamples: 128 });
      const miss = Math.abs(quick.lamps[0]!.dome_lx - truth.lamps[0]!.dome_lx);
      if (miss <= quick.error_lx) covered++;
      if (truth.lamps[0]!.visible > 0.02 && truth.lamps[0]!.visible < 0.98) shadowed++;
    }
    // The test means something only if most cases are penumbrae.
    expect(shadowed / CASES).toBeGreaterThan(0.6);
    expect(covered / CASES).toBeGreaterThanOrEqual(0.92);
    console.info(`stated 95 % interval covered ${((100 * covered) / CASES).toFixed(1)} % of ${CASES} cases`);
  });

  it('is brought under the limit that was asked for', () => {
    for (let i = 0; i < 40; i++) {
      const { model, meter } = randomCase(i);
      const light = directLight(model, meter, { receptor: 'dome', error_stops: 0.02, maxSamples: 1 << 16 });
      const { dome_lx: E, visible } = light.lamps[0]!;
      // Below a hundredth of the lamp the largest number of samples may not do; the error is then stated as it is.
      if (visible > 0.01) expect(Math.log2(1 + light.error_lx / E), `case ${i}`).toBeLessThanOrEqual(0.02);
    }
  });

  it('is the same to the last bit every time', () => {
    const { model, meter } = randomCase(3);
    const options = { receptor: 'flat', error_stops: 0.02, maxSamples: 1 << 15 } as const;
    expect(directLight(model, meter, options)).toEqual(directLight(model, meter, options));
  });
});
