import { expect, it } from 'vitest';
import { receivedScene, sentScene } from '../../../src/editor/frame/sent-scene.ts';
import type { Texels } from '../../../src/preview/pack/texels.ts';
import type { PreviewScene } from '../../../src/preview/renderer/preview-scene.ts';

const texels = (value: number): Texels => ({ width: 1, height: 1, data: Float32Array.of(value, 0, 0, 0) });

const scene = (textures: PreviewScene['textures']): PreviewScene => ({
  textures,
  uniforms: { lamps: [1] },
  features: { haze: false, hazeBoxes: false, mirrors: false, sheets: false, tables: false },
  gains: [[1, 1, 1]],
});

it('is whole for one who has nothing', () => {
  const given = scene({ light: texels(1), geometry: texels(2) });
  const sent = sentScene(given, {});
  expect(sent).toEqual(given);
  expect(receivedScene(sent, {})).toEqual(given);
});

it('leaves out the textures that are the very ones that were sent before, and those only', () => {
  const [geometry, light] = [texels(2), texels(1)];
  const first = scene({ light, geometry });
  // Equal numbers in another object are taken for new: only what is the same object is known to be the same for certain.
  const next = scene({ light: texels(1), geometry });
  const sent = sentScene(next, first.textures);
  expect(sent.textures).toEqual({ light: texels(1), geometry: null });
  expect(receivedScene(structuredClone(sent), structuredClone(first.textures))).toEqual(next);
});
