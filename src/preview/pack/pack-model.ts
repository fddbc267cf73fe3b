import type { Tracer } from '../../core/transport/tracer.ts';
import { uniformsOf } from './layout.ts';
import { packGeometry } from './pack-geometry.ts';
import { packLight } from './pack-light.ts';
import { earlierIfSame, type Texels } from './texels.ts';

/** All of a light model as the card takes it. */
export interface PackedModel {
  /** By the name of their sampler. */
  readonly textures: Readonly<Record<string, Texels>>;
  /** By their name; `setUniforms` of gl/uniforms.ts sets them. */
  readonly uniforms: Readonly<Record<string, readonly number[]>>;
}

/** Textures that would be as they were in `before` are the very objects of it: they need not go to the card again. */
export function packModel(tracer: Tracer, before?: PackedModel): PackedModel {
  const geometry = packGeometry(tracer.model.geometry);
  const light = packLight(tracer);
  const textures = { ...geometry.textures };
  for (const [name, texels] of Object.entries(light.textures))
    textures[name] = earlierIfSame(before?.textures[name], texels);
  return { textures, uniforms: uniformsOf(geometry, light) };
}
