import type { LightModel } from '../../core/light-model/light-model.ts';
import type { Vec3 } from '../../core/math/vec3.ts';
import { newTracer } from '../../core/transport/tracer.ts';
import { type PackedModel, packModel } from '../pack/pack-model.ts';
import { earlierIfSame } from '../pack/texels.ts';
import type { Features } from '../shaders/features.ts';
import { transportTables } from './transport-tables.ts';

/** A light model and what its tracer has worked out, as the renderer takes it: plain numbers, so that a worker can make it. */
export interface PreviewScene extends PackedModel {
  readonly features: Features;
  /** By lamp, what its light is multiplied by: everything else is of lamps at full level, so that this alone may change. */
  readonly gains: readonly Vec3[];
}

/** Textures that would be as they were in `before` are the very objects of it, and so is the whole but for gains. */
export function previewScene(model: LightModel, before?: PreviewScene): PreviewScene {
  const full = { ...model, lamps: model.lamps.map((lamp) => ({ ...lamp, gain: 1 })) };
  const tracer = newTracer(full);
  const packed = packModel(tracer, before);
  const { texels, lists } = transportTables(tracer);
  const transportTexels = earlierIfSame(before?.textures.transportTexels, texels);
  return {
    textures: { ...packed.textures, transportTexels },
    uniforms: { ...packed.uniforms, ...lists },
    features: {
      haze: tracer.extinction > 0,
      hazeBoxes: tracer.extinction > 0 && (model.haze?.regions ?? null) !== null,
      mirrors: tracer.mirrors.length > 0,
      sheets: model.panes.some(({ scattered }) => scattered > 0),
      tables: model.lamps.some(({ distribution }) => distribution.kind === 'table'),
    },
    gains: model.lamps.map(({ gain }) => [gain, gain, gain]),
  };
}
