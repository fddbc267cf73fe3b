import type { Program } from './program.ts';

/**
 * Sets uniforms of the program in use, each by its numbers, as the type asks that the shader declares. Names that the shader
 * does not use are passed over.
 */
export function setUniforms(
  gl: WebGL2RenderingContext,
  program: Program,
  uniforms: Readonly<Record<string, readonly number[]>>,
): void {
  for (const [name, numbers] of Object.entries(uniforms)) {
    const location = program.uniforms.get(name);
    if (location) setUniform(gl, location, program.uniformTypes.get(name)!, numbers);
  }
}

function setUniform(
  gl: WebGL2RenderingContext,
  location: WebGLUniformLocation,
  type: GLenum,
  numbers: readonly number[],
): void {
  switch (type) {
    case gl.FLOAT:
      gl.uniform1fv(location, numbers);
      return;
    case gl.FLOAT_VEC2:
      gl.uniform2fv(location, numbers);
      return;
    case gl.FLOAT_VEC3:
      gl.uniform3fv(location, numbers);
      return;
    case gl.FLOAT_VEC4:
      gl.uniform4fv(location, numbers);
      return;
    case gl.INT:
    case gl.BOOL:
      gl.uniform1iv(location, numbers);
      return;
    case gl.INT_VEC2:
      gl.uniform2iv(location, numbers);
      return;
    case gl.INT_VEC3:
      gl.uniform3iv(location, numbers);
      return;
    case gl.INT_VEC4:
      gl.uniform4iv(location, numbers);
      return;
    case gl.UNSIGNED_INT:
      gl.uniform1uiv(location, numbers);
      return;
    case gl.UNSIGNED_INT_VEC2:
      gl.uniform2uiv(location, numbers);
      return;
    default:
      throw new Error(`A uniform of the type ${type} cannot be set from numbers.`);
  }
}
