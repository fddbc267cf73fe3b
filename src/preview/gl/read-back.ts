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

/** Floats on their way: asked for, and there when the driver has drawn that far. */
export interface FloatsToCome {
  isThere(): boolean;
  /** The floats, once; the driver is made to wait for if they are not there. */
  take(): Float32Array;
  discard(): void;
}

/** Asks for the floats of one output without waiting for them. */
export function readFloatsLater(
  gl: WebGL2RenderingContext,
  target: FloatTarget,
  output = 0,
  { x, y, width, height }: PixelRectangle = { x: 0, y: 0, width: target.width, height: target.height },
): FloatsToCome {
  const size = width * height * 4;
  const buffer = gl.createBuffer();
  gl.bindBuffer(gl.PIXEL_PACK_BUFFER, buffer);
  gl.bufferData(gl.PIXEL_PACK_BUFFER, size * 4, gl.STREAM_READ);
  gl.bindFramebuffer(gl.READ_FRAMEBUFFER, target.framebuffer);
  gl.readBuffer(gl.COLOR_ATTACHMENT0 + output);
  gl.readPixels(x, y, width, height, gl.RGBA, gl.FLOAT, 0);
  gl.bindBuffer(gl.PIXEL_PACK_BUFFER, null);
  const fence = gl.fenceSync(gl.SYNC_GPU_COMMANDS_COMPLETE, 0);
  gl.flush();
  const discard = (): void => {
    gl.deleteBuffer(buffer);
    gl.deleteSync(fence);
  };
  return {
    isThere: () => fence === null || gl.getSyncParameter(fence, gl.SYNC_STATUS) === gl.SIGNALED,
    take: () => {
      const floats = new Float32Array(size);
      gl.bindBuffer(gl.PIXEL_PACK_BUFFER, buffer);
      gl.getBufferSubData(gl.PIXEL_PACK_BUFFER, 0, floats);
      gl.bindBuffer(gl.PIXEL_PACK_BUFFER, null);
      discard();
      return floats;
    },
    discard,
  };
}
