import { emptyFloatTexture } from './float-texture.ts';

/** Something that shaders draw floats into: one texture an output, all of one size. */
export interface FloatTarget {
  readonly framebuffer: WebGLFramebuffer;
  readonly textures: readonly WebGLTexture[];
  readonly width: number;
  readonly height: number;
}

/** The graphics of this machine cannot do what the frame needs; the message says what to do instead. */
export class GraphicsUnable extends Error {
  override readonly name = 'GraphicsUnable';
}

/**
 * Switches on drawing into 32-bit floats for a context; every new or restored context needs it.
 * @throws GraphicsUnable where there is no such thing.
 */
export function requireFloatTargets(gl: WebGL2RenderingContext): void {
  if (!gl.isContextLost() && !gl.getExtension('EXT_color_buffer_float'))
    throw new GraphicsUnable(
      "This browser's graphics cannot draw into 32-bit floats (EXT_color_buffer_float is missing), and light needs them: use the frame that is computed without graphics, or another browser or driver.",
    );
}

/** `depth`: where a nearer one hides what is drawn, shared with other targets. @throws GraphicsUnable if the driver refuses a target of this size. */
export function newFloatTarget(
  gl: WebGL2RenderingContext,
  width: number,
  height: number,
  outputs = 1,
  depth?: WebGLRenderbuffer,
): FloatTarget {
  const textures = Array.from({ length: outputs }, () => emptyFloatTexture(gl, width, height));
  const framebuffer = gl.createFramebuffer();
  gl.bindFramebuffer(gl.FRAMEBUFFER, framebuffer);
  textures.forEach((texture, i) => {
    gl.framebufferTexture2D(gl.FRAMEBUFFER, gl.COLOR_ATTACHMENT0 + i, gl.TEXTURE_2D, texture, 0);
  });
  if (depth) gl.framebufferRenderbuffer(gl.FRAMEBUFFER, gl.DEPTH_ATTACHMENT, gl.RENDERBUFFER, depth);
  gl.drawBuffers(textures.map((_, i) => gl.COLOR_ATTACHMENT0 + i));
  const target = { framebuffer, textures, width, height };
  const status = gl.checkFramebufferStatus(gl.FRAMEBUFFER);
  if (status !== gl.FRAMEBUFFER_COMPLETE && !gl.isContextLost()) {
    deleteFloatTarget(gl, target);
    throw new GraphicsUnable(
      `The graphics driver refused ${outputs} float images of ${width} × ${height} (status ${status}): try a smaller frame.`,
    );
  }
  return target;
}

export function deleteFloatTarget(gl: WebGL2RenderingContext, target: FloatTarget): void {
  gl.deleteFramebuffer(target.framebuffer);
  for (const texture of target.textures) gl.deleteTexture(texture);
}

/** What is drawn from now on goes into the target, over its whole size. */
export function drawInto(gl: WebGL2RenderingContext, target: FloatTarget): void {
  gl.bindFramebuffer(gl.FRAMEBUFFER, target.framebuffer);
  gl.viewport(0, 0, target.width, target.height);
}
