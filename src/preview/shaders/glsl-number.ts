/** A number as a GLSL float writes it. */
export function glslFloat(x: number): string {
  if (!Number.isFinite(x)) throw new RangeError(`${x} cannot be written into a shader; give a finite number`);
  const text = String(x);
  return /[.e]/.test(text) ? text : `${text}.0`;
}

/** Numbers as a GLSL vec2, vec3 or vec4 writes them. */
export function glslVec(numbers: readonly number[]): string {
  return `vec${numbers.length}(${numbers.map(glslFloat).join(', ')})`;
}
