import type { Program } from '../gl/program.ts';

/** Draws are by this program from now on. */
export function takeUp(gl: WebGL2RenderingContext, { handle }: Program): void {
  // biome-ignore lint/correctness/useHookAtTopLevel: a call of WebGL that only sounds like a hook.
  gl.useProgram(handle);
}
