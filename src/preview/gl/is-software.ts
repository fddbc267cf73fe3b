/** Drivers that draw by the processor, by what they call themselves. */
const SOFTWARE = /swiftshader|llvmpipe|softpipe|software|basic render/i;

/** Whether the processor plays the card. Drivers that do not say what they are count as cards. */
export function isSoftware(gl: WebGL2RenderingContext): boolean {
  const named = gl.getExtension('WEBGL_debug_renderer_info');
  return SOFTWARE.test(String(gl.getParameter(named ? named.UNMASKED_RENDERER_WEBGL : gl.RENDERER)));
}
