import { describe, expect, it } from 'vitest';
import { newTracer } from '../../../src/core/transport/tracer.ts';
import { SECTIONS } from '../../../src/preview/pack/layout.ts';
import { packModel } from '../../../src/preview/pack/pack-model.ts';
import { sceneModel } from '../support/scene-models.ts';

describe('a packed model', () => {
  it('says where every section begins and how many entries it has', async () => {
    const { model, ...rest } = newTracer(await sceneModel('test-room'));
    const { uniforms } = packModel({ model, ...rest });
    const count = Object.fromEntries(SECTIONS.map((section, i) => [section, uniforms.sectionCount![i]]));
    expect(count).toEqual({
      nodes: model.geometry.hierarchy.skip.length,
      shapes: model.geometry.shapeCount,
      openings: model.geometry.openings.length / 4,
      surfaces: model.surfaces.length,
      panes: model.panes.length,
      lamps: model.lamps.length,
      lampOnSurface: model.lamps.length * model.surfaces.length,
      hazeRegions: rest.hazeRegions.length,
    });
    expect(uniforms.sectionAt).toHaveLength(SECTIONS.length);
  });

  it('when a lamp is dimmed, differs in the texture of lights alone', async () => {
    const model = await sceneModel('night-quay');
    const before = packModel(newTracer(model));
    const lamps = model.lamps.map((lamp) => ({ ...lamp, gain: lamp.gain / 2 }));
    const { textures } = packModel(newTracer({ ...model, lamps }), before);
    expect(textures.geometryTexels).toBe(before.textures.geometryTexels);
    expect(textures.tableTexels).toBe(before.textures.tableTexels);
    expect(textures.lightTexels).not.toEqual(before.textures.lightTexels);
  });
});
