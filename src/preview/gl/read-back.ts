import type { FloatTarget } from './float-target.ts';

/** A rectangle of pixels, from the lower left. */
export interface PixelRectangle {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** Four floats a pixel of one output, rows upward; waits until all that was asked for is drawn. */
export function readFloats(
  gl: WebGL2RenderingContext,
  target: FloatTarget,
  output = 0,
  { x, y, width, height }: PixelRectangle = { x: 0, y: 0, width: target.width, height: target.height },
): Float32Array {
  const floats = new Float32Array(width * height * 4);
  gl.bindFramebuffer(gl.READ_FRAMEBUFFER, target.framebuffer);
  gl.readBuffer(gl.COLOR_ATTACHMENT0 + output);
  gl.readPixels(x, y, width, height, gl.RGBA, gl.FLOAT, floats);
  return floats;
}
