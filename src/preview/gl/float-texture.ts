import type { Texels } from '../pack/texels.ts';

/**
 * A texture of 32-bit floats, four a texel, to be read with texelFetch.
 * @throws RangeError if it is larger than this driver takes.
 */
export function newFloatTexture(gl: WebGL2RenderingContext, texels: Texels): WebGLTexture {
  const { width, height, data } = texels;
  const largest: number = gl.getParameter(gl.MAX_TEXTURE_SIZE);
  if (width > largest || height > largest)
    throw new RangeError(
      `The scene needs a texture of ${width} × ${height} texels, and this graphics driver takes at most ${largest} × ${largest}: leave out or simplify meshes.`,
    );
  const texture = emptyFloatTexture(gl, width, height);
  gl.texSubImage2D(gl.TEXTURE_2D, 0, 0, 0, width, height, gl.RGBA, gl.FLOAT, data);
  return texture;
}

/** A texture of zeroes, left bound. */
export function emptyFloatTexture(gl: WebGL2RenderingContext, width: number, height: number): WebGLTexture {
  const texture = gl.createTexture();
  gl.bindTexture(gl.TEXTURE_2D, texture);
  gl.texStorage2D(gl.TEXTURE_2D, 1, gl.RGBA32F, width, height);
  for (const name of [gl.TEXTURE_MIN_FILTER, gl.TEXTURE_MAG_FILTER])
    gl.texParameteri(gl.TEXTURE_2D, name, gl.NEAREST);
  for (const name of [gl.TEXTURE_WRAP_S, gl.TEXTURE_WRAP_T])
    gl.texParameteri(gl.TEXTURE_2D, name, gl.CLAMP_TO_EDGE);
  return texture;
}
