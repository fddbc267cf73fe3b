import { newFloatTexture } from '../gl/float-texture.ts';
import type { Texels } from '../pack/texels.ts';

/** Textures of a scene on the card. Texels that are the very object they were are not taken there again. */
export interface DataTextures {
  /** By the name of their sampler. @throws RangeError for a texture larger than the driver takes */
  take(texels: Readonly<Record<string, Texels>>): Record<string, WebGLTexture>;
  dispose(): void;
}

export function newDataTextures(gl: WebGL2RenderingContext): DataTextures {
  const there = new Map<string, { readonly of: Texels; readonly texture: WebGLTexture }>();
  return {
    take(texels) {
      for (const [name, { of, texture }] of there)
        if (texels[name] !== of) {
          gl.deleteTexture(texture);
          there.delete(name);
        }
      return Object.fromEntries(
        Object.entries(texels).map(([name, of]) => {
          const known = there.get(name);
          if (known) return [name, known.texture];
          const texture = newFloatTexture(gl, of);
          there.set(name, { of, texture });
          return [name, texture];
        }),
      );
    },
    dispose() {
      for (const { texture } of there.values()) gl.deleteTexture(texture);
      there.clear();
    },
  };
}
