import type { Tracer } from '../../core/transport/tracer.ts';
import { uniformsOf } from './layout.ts';
import { packGeometry } from './pack-geometry.ts';
import { packLight } from './pack-light.ts';
import type { Texels } from './texels.ts';

/** All of a light model as the card takes it. */
export interface PackedModel {
  /** By the name of their sampler. */
  readonly textures: Readonly<Record<string, Texels>>;
  /** By their name; `setUniforms` of gl/uniforms.ts sets them. */
  readonly uniforms: Readonly<Record<string, readonly number[]>>;
}

export function packModel(tracer: Tracer): PackedModel {
  const geometry = packGeometry(tracer.model.geometry);
  const light = packLight(tracer);
  return {
    textures: { ...geometry.textures, ...light.textures },
    uniforms: uniformsOf(geometry, light),
  };
}
