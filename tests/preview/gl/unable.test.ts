import { describe, expect, it } from 'vitest';
import { GraphicsUnable, requireFloatTargets } from '../../../src/preview/gl/float-target.ts';
import { newFloatTexture } from '../../../src/preview/gl/float-texture.ts';
import { newTexels } from '../../../src/preview/pack/texels.ts';

/** Graphics that can do nothing but what is given. */
function graphics(able: Partial<WebGL2RenderingContext>): WebGL2RenderingContext {
  return able as WebGL2RenderingContext;
}

describe('graphics that cannot do it say so', () => {
  it('without drawing into floats', () => {
    const gl = graphics({ isContextLost: () => false, getExtension: () => null });
    expect(() => requireFloatTargets(gl)).toThrow(GraphicsUnable);
    expect(() => requireFloatTargets(gl)).toThrow(
      /EXT_color_buffer_float is missing.*use the frame that is computed without graphics/,
    );
  });

  it('but not for a context that is lost and may come back', () => {
    requireFloatTargets(graphics({ isContextLost: () => true, getExtension: () => null }));
  });

  it('with too small textures for the scene', () => {
    const gl = graphics({ MAX_TEXTURE_SIZE: 0x0d33, getParameter: () => 2048 });
    expect(() => newFloatTexture(gl, newTexels(2048 * 2049))).toThrow(
      /2048 × 2049 texels, and this graphics driver takes at most 2048 × 2048/,
    );
  });
});
