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
  /** What the texture of curves was packed from. */
  readonly curves: readonly ArrayLike<number>[];
}

/** Textures that would be as they were in `before` are the very objects of it: they need not go to the card again. */
export function packModel(tracer: Tracer, before?: PackedModel): PackedModel {
  const geometry = packGeometry(tracer.model.geometry);
  const light = packLight(tracer, before);
  return {
    curves: light.curves,
    textures: { ...geometry.textures, ...light.textures },
    uniforms: uniformsOf(geometry, light),
  };
}
