import { describe, expect, it } from 'vitest';
import { cureWords } from '../../src/paperwork/cure-words.ts';
import { compileScene } from '../../src/scene/compile/compile-scene.ts';
import { curesOf } from '../../src/scene/mirror/cures/cures.ts';
import type { SceneDocument } from '../../src/scene/schema/document.ts';
import { rakedSide } from '../support/raked-side.ts';

/** The lamp is kept at 25 m: its image on the side is at z = 1.5 + 0.75·(height − 1.5), 18.75 m along. */
function pairOf(document: SceneDocument) {
  const model = compileScene(document, { photometry: new Map(), meshes: new Map() });
  return curesOf({ document, model, camera: document.cameras![0]! })[0]!;
}

function lampUp(document: SceneDocument) {
  return pairOf(document).cures.find(({ change }) => change === 'lamp-up');
}

describe('S6: the lamp raised until its image passes over the side', () => {
  it('clears a flat side 3 m high from a stand of 3.5 m and half the lamp', () => {
    const up = lampUp(rakedSide())!;
    // Derived: the middle of the image passes the top at 1.5 + 1.5·8/6 = 3.5 m; the disc's lower rim 0.15 m later.
    expect(up.height_m).toBeGreaterThan(3.64);
    expect(up.height_m).toBeLessThan(3.7);
    expect(Math.abs(up.cost_stops!)).toBeLessThan(0.1);
  });

  it('is not to be had from a lower stand', () => {
    expect(lampUp(rakedSide({ 'lamps.0.stand': { maxHeight_m: 3.6 } }))).toBeUndefined();
    expect(lampUp(rakedSide({ 'lamps.0.stand': { maxHeight_m: 3.8 } }))).toBeDefined();
  });

  // Derived: lamp and image are at one depth, 25 m, so both leave the top of a level frame at 1.5 + 25·(half height/focal):
  // 12/35 → 10.07 m, 16:9 on 36 mm 10.125/35 → 8.73 m, and the disc's lower rim up to 0.15 m later.
  it.each<[string, number | undefined, number]>([
    ['3:2', undefined, 10.07],
    ['16:9', 16 / 9, 8.73],
  ])('leaves the top of a %s frame, where the side is tall', (_, aspect, height_m) => {
    const document = rakedSide({
      'solids.0.size_m': [30, 20, 3],
      'lamps.0.stand': { maxHeight_m: 14 },
      ...(aspect === undefined ? {} : { 'cameras.0.aspect': aspect }),
    });
    const up = lampUp(document)!;
    expect(up.height_m).toBeGreaterThan(height_m);
    expect(up.height_m).toBeLessThan(height_m + 0.35);
  });

  it('leaves a rounded roof with a glint, and says so', () => {
    const vehicle = { shape: 'vehicle', size_m: [30, 3, 3], position_m: [5, 0, -1.5], roofRadius_m: 0.4 };
    const document = rakedSide({ 'solids.0': { id: 'body', name: 'Body', material: 'gloss', ...vehicle } });
    const pair = pairOf(document);
    expect(pair.cures.some(({ change }) => change === 'lamp-up')).toBe(false);
    const up = pair.partial.find(({ change }) => change === 'lamp-up')!;
    // Derived: the flat part ends at 2.6 m: the middle of the image passes it at 1.5 + 1.1·8/6 = 2.97 m: just below where
    // the lamp stands, so the rim's last 0.12 m are to go.
    expect(up.by_m).toBeLessThan(0.25);
    expect(up.leaves).toMatchObject([{ lamp: 'back', solid: 'body', side: 'right roof edge' }]);
    const words = cureWords(pair, (id) => id).join('\n');
    expect(words).toContain('Off this surface only: stand up');
  });
});
