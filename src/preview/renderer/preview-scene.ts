import type { LightModel } from '../../core/light-model/light-model.ts';
import { newTracer, type Tracer } from '../../core/transport/tracer.ts';
import { type PackedModel, packModel } from '../pack/pack-model.ts';
import type { Features } from '../shaders/features.ts';
import { transportTables } from './transport-tables.ts';

/** A light model and what its tracer has worked out, as the renderer takes it: plain numbers, so that a worker can make it. */
export interface PreviewScene extends PackedModel {
  readonly features: Features;
}

export function previewScene(model: LightModel, tracer: Tracer = newTracer(model)): PreviewScene {
  const packed = packModel(tracer);
  const { texels, lists } = transportTables(tracer);
  return {
    textures: { ...packed.textures, transportTexels: texels },
    uniforms: { ...packed.uniforms, ...lists },
    features: {
      haze: tracer.extinction > 0,
      mirrors: tracer.mirrors.length > 0,
      sheets: model.panes.some(({ scattered }) => scattered > 0),
    },
  };
}
