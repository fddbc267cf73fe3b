import { describe, expect, it } from 'vitest';
import type { Vec3 } from '../../src/core/math/vec3.ts';
import { groundShaft } from '../../src/core/optics/shaft.ts';
import { directLight, type LampLight } from '../../src/core/transport/direct.ts';
import { compileScene } from '../../src/scene/compile/compile-scene.ts';
import { readSceneFiles } from '../../src/scene/files/scene-files.ts';
import type { FaceShape } from '../../src/scene/schema/head.ts';
import { isotropicFile } from '../support/isotropic-file.ts';
import { opened } from '../support/scenes.ts';

/**
 * A lamp inside, 1.5 m behind grimy glass, 2.2 m up, throws a shaft through a window with its sill at 0.9 m and its head at
 * 1.7 m (or lower, with the blind down) onto the ground. Outward is +z, the glass stands at z = 0.
 */
const LAMP: Vec3 = [0, 2.2, -1.5];
const INTENSITY_cd = 20_000;
const GLASS = 0.62;

const POINT: FaceShape = { shape: 'disc', diameter_m: 0.001 };
const TEN_CM: FaceShape = { shape: 'rectangle', size_m: [0.1, 0.1] };

async function window(head_m: number, face: FaceShape) {
  const document = opened({
    keyfall: 1,
    title: 'Shaft',
    panes: { grimy: { name: 'Grimy glass', direct: GLASS, scattered: 0, spread_deg: 60 } },
    solids: [
      { id: 'ground', shape: 'box', position_m: [0, -0.5, 5], size_m: [20, 1, 20], material: 'matte-black' },
      {
        id: 'wall',
        shape: 'panel',
        position_m: [0, 2, 0],
        size_m: [12, 4],
        material: 'matte-black',
        openings: [{ left_m: 5, bottom_m: 0.9, width_m: 2, height_m: head_m - 0.9 }],
      },
      { id: 'glass', shape: 'pane', position_m: [0, 2, 0.001], size_m: [12, 4], pane: 'grimy' },
    ],
    heads: {
      lamp: {
        photometry: { kind: 'file', file: 'lamp.ies', text: isotropicFile(INTENSITY_cd) },
        face,
        spectrum: { kind: 'led', cct_K: 5600 },
      },
    },
    // Aimed along the ray that grazes the head of the open window.
    lamps: [{ id: 'lamp', head: 'lamp', position_m: LAMP, aim_m: [0, 0, 5.1] }],
  });
  const { files } = await readSceneFiles(document, () => Promise.reject(new Error('no file')));
  const model = compileScene(document, files);
  return (x: number, z: number): LampLight => {
    const meter = { position_m: [x, 0, z] as Vec3, facing: [0, 1, 0] as Vec3 };
    const options = { receptor: 'flat', error_stops: 0.005, maxSamples: 1 << 15 } as const;
    return directLight(model, meter, options).lamps[0]!;
  };
}

/** Where something begins or ends, between two places that differ in it. */
function edge(holds: (x: number) => boolean, from: number, to: number): number {
  let [a, b] = [from, to];
  const first = holds(a);
  for (let i = 0; i < 14; i++) {
    const middle = (a + b) / 2;
    if (holds(middle) === first) a = middle;
    else b = middle;
  }
  return a;
}

describe('S10, a shaft on the ground', () => {
  it('begins at 1.04 m and ends at 5.10 m, 720 and 81 lx, 3.15 stops apart', async () => {
    // derived: 1.5·0.9/1.3 = 1.04 m; 1.5·1.7/0.5 = 5.10 m
    const at = await window(1.7, POINT);
    const near = edge((z) => at(0, z).visible > 0.5, 0.5, 2);
    const far = edge((z) => at(0, z).visible > 0.5, 4, 6);
    expect(Math.abs(near - 1.04)).toBeLessThan(0.005);
    expect(Math.abs(far - 5.1)).toBeLessThan(0.02);
    // derived: r² = 11.28, cos 0.655 → 20 000·0.62·0.655/11.28 = 720 lx; r² = 48.4, cos 0.316 → 81 lx
    const [near_lx, far_lx] = [at(0, near + 0.005).flat_lx, at(0, far - 0.008).flat_lx];
    expect(Math.abs(near_lx / 720 - 1)).toBeLessThan(0.015);
    expect(Math.abs(far_lx / 81 - 1)).toBeLessThan(0.015);
    expect(Math.abs(Math.log2(near_lx / far_lx) - 3.15)).toBeLessThan(0.02);
  });

  it('has edges where the sums for it say, to a centimetre', async () => {
    const shaft = groundShaft({
      lampHeight_m: 2.2,
      lampToGlass_m: 1.5,
      sill_m: 0.9,
      head_m: 1.7,
      sourceWidth_m: 0.1,
    })!;
    const at = await window(1.7, POINT);
    expect(Math.abs(edge((z) => at(0, z).visible > 0.5, 0.5, 2) - shaft.near.reach_m)).toBeLessThan(0.01);
    expect(Math.abs(edge((z) => at(0, z).visible > 0.5, 4, 6) - shaft.far.reach_m)).toBeLessThan(0.01);
    expect(Math.abs(shaft.fallOff_stops - 3.15)).toBeLessThan(0.005);
  });

  it('is blurred over 1.1 m under its head and 0.34 m beside its mullions, from a source of 0.10 m', async () => {
    // derived: 0.10·5.1/1.5 = 0.34 m; ÷ 0.316 = 1.075 m, first order; the true triangle of the tilted source is 1.085 m
    const at = await window(1.7, TEN_CM);
    // Between a tenth and nine tenths of the source lie eight tenths of its half-shadow.
    const full = edge((z) => at(0, z).visible > 0.9, 3, 5.1);
    const none = edge((z) => at(0, z).visible > 0.1, 5.1, 7);
    expect(Math.abs((none - full) / 0.8 / 1.075 - 1)).toBeLessThan(0.03);
    // derived: the jamb stands 1 m aside; at 4.5 m, clear of the head's half-shadow, 0.10·4.5/1.5 = 0.30 m
    const inside = edge((x) => at(x, 4.5).visible > 0.9, 3, 5);
    const outside = edge((x) => at(x, 4.5).visible > 0.1, 3, 5);
    expect(Math.abs((outside - inside) / 0.8 / 0.3 - 1)).toBeLessThan(0.03);
  });

  it('is evener with the blind down to 1.4 m: 2.63 m and 1.4 stops', async () => {
    // derived: 1.5·1.4/0.8 = 2.63 m, r² = 21.9; 1.5·log₂(21.9/11.28) = 1.43
    const at = await window(1.4, POINT);
    const far = edge((z) => at(0, z).visible > 0.5, 2, 4);
    expect(Math.abs(far - 2.63)).toBeLessThan(0.01);
    const stops = Math.log2(at(0, 1.0385 + 0.005).flat_lx / at(0, far - 0.005).flat_lx);
    expect(Math.abs(stops - 1.4)).toBeLessThan(0.05);
  });

  it('falls off more when the lamp is backed off', () => {
    const falls = [1, 1.5, 2, 3, 5].map(
      (lampToGlass_m) =>
        groundShaft({ lampHeight_m: 2.2, lampToGlass_m, sill_m: 0.9, head_m: 1.7, sourceWidth_m: 0.1 })!
          .fallOff_stops,
    );
    expect(falls).toEqual([...falls].sort((a, b) => a - b));
  });
});
