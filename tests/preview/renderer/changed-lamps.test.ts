import { describe, expect, it } from 'vitest';
import { lampFrame } from '../../../src/core/lamps/lamp-frame.ts';
import type { LightModel } from '../../../src/core/light-model/light-model.ts';
import { add, scale, type Vec3 } from '../../../src/core/math/vec3.ts';
import { changedLamps } from '../../../src/preview/renderer/changed-lamps.ts';
import { previewScene } from '../../../src/preview/renderer/preview-scene.ts';
import { type SCENES, sceneModel } from '../support/scene-models.ts';

/** How another model differs from a scene of ours. */
async function changedIn(name: (typeof SCENES)[number], change: (model: LightModel) => Partial<LightModel>) {
  const model = await sceneModel(name);
  const before = previewScene(model);
  return changedLamps(before, previewScene({ ...model, ...change(model) }, before));
}

const moved = (model: LightModel, which: readonly number[], by: Vec3): Partial<LightModel> => ({
  lamps: model.lamps.map((lamp, i) => {
    if (!which.includes(i)) return lamp;
    const { origin_m, a } = lamp.frame;
    const to = add(origin_m, by);
    return { ...lamp, frame: lampFrame(to, add(to, scale(a, 5))) };
  }),
});

describe('what changes between two scenes', () => {
  it('is nothing where they are the same or lamps are only dimmed', async () => {
    expect(await changedIn('night-quay', () => ({}))).toEqual([]);
    const dimmed = (model: LightModel) => ({
      lamps: model.lamps.map((lamp) => ({ ...lamp, gain: lamp.gain / 3 })),
    });
    expect(await changedIn('night-quay', dimmed)).toEqual([]);
  });

  it('is the lamps that were moved, in haze that is everywhere and beside mirrors and panes', async () => {
    expect(await changedIn('night-quay', (model) => moved(model, [2], [0.3, 0, 0]))).toEqual([2]);
    expect(await changedIn('night-quay', (model) => moved(model, [1, 4], [0.2, 0.1, 0]))).toEqual([1, 4]);
  });

  it('is the lamp whose light has another colour', async () => {
    const warmer = (model: LightModel) => ({
      lamps: model.lamps.with(3, { ...model.lamps[3]!, colour_XYZ: [1.1, 1, 0.4] }),
    });
    expect(await changedIn('night-quay', warmer)).toEqual([3]);
  });

  it('is more than lamps where a lamp is gone, haze is denser, a surface darker, or the sky', async () => {
    expect(await changedIn('test-room', ({ lamps }) => ({ lamps: lamps.slice(1) }))).toBeNull();
    const denser = ({ haze }: LightModel) => ({ haze: { ...haze!, extinction_per_m: 0.02 } });
    expect(await changedIn('night-quay', denser)).toBeNull();
    const darker = ({ lampOnSurface_RGB, surfaces }: LightModel) => ({
      lampOnSurface_RGB,
      surfaces: surfaces.with(0, {
        ...surfaces[0]!,
        optics: { ...surfaces[0]!.optics, baseLuminance: 0.01 },
      }),
    });
    expect(await changedIn('night-quay', darker)).toBeNull();
    const starless = ({ sky }: LightModel) => ({ sky: { ...sky!, illuminance_lx: 9 } });
    expect(await changedIn('night-quay', starless)).toBeNull();
  });

  it('is more than lamps where a lamp has another beam', async () => {
    const wider = ({ lamps }: LightModel) => ({
      lamps: lamps.with(1, {
        ...lamps[1]!,
        distribution: { kind: 'beam', peak_cd: 900, beam_deg: 30, field_deg: 50 } as const,
      }),
    });
    expect(await changedIn('night-quay', wider)).toBeNull();
  });
});
