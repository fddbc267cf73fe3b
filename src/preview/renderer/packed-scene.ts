import type { LightModel } from '../../core/light-model/light-model.ts';
import { newTracer, type Tracer } from '../../core/transport/tracer.ts';
import { type PackedModel, packModel } from '../pack/pack-model.ts';
import { transportTables } from './transport-tables.ts';

/** A light model and what its tracer has worked out, as the renderer takes it: plain numbers, so that a worker can make it. */
export function packedScene(model: LightModel, tracer: Tracer = newTracer(model)): PackedModel {
  const packed = packModel(tracer);
  const { texels, lists } = transportTables(tracer);
  return {
    textures: { ...packed.textures, transportTexels: texels },
    uniforms: { ...packed.uniforms, ...lists },
  };
}
