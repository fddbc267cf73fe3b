import { assembled, type Chunk, inOrder } from '../shaders/chunk.ts';

/** A linked program that runs a fragment shader for every pixel of the viewport. */
export interface Program {
  readonly handle: WebGLProgram;
  /** By name; an array stands under its name without brackets. A uniform that the shader does not use is not there. */
  readonly uniforms: ReadonlyMap<string, WebGLUniformLocation>;
  /** What type each of them is declared as. */
  readonly uniformTypes: ReadonlyMap<string, GLenum>;
}

/** A program that the driver is still building. */
export interface UnfinishedProgram {
  /** Whether `finish` would answer at once; always true where the driver cannot tell. */
  isBuilt(): boolean;
  /** Waits for the driver. @throws ShaderError */
  finish(): Program;
  discard(): void;
}

/** The graphics driver did not accept a shader, or lost its context over it. */
export class ShaderError extends Error {
  override readonly name = 'ShaderError';
}

const HEADER = `#version 300 es
precision highp float;
precision highp int;
precision highp sampler2D;
precision highp isampler2D;
precision highp usampler2D;
`;

/** One triangle over the whole viewport, from nothing but its corners' numbers. */
const COVER_ALL = `#version 300 es
void main() {
  vec2 corner = vec2(gl_VertexID == 1 ? 3.0 : -1.0, gl_VertexID == 2 ? 3.0 : -1.0);
  gl_Position = vec4(corner, 0.0, 1.0);
}
`;

/**
 * Starts building the program whose fragment shader is `main` and all it needs; `main` declares the outputs and
 * `void main()`. The header with version and precisions is put before it.
 */
export function startProgram(gl: WebGL2RenderingContext, main: Chunk): UnfinishedProgram {
  const parallel = gl.getExtension('KHR_parallel_shader_compile');
  const chunks = inOrder([main]);
  const vertex = startShader(gl, gl.VERTEX_SHADER, COVER_ALL);
  const fragment = startShader(gl, gl.FRAGMENT_SHADER, HEADER + assembled([main]));
  const handle = gl.createProgram();
  gl.attachShader(handle, vertex);
  gl.attachShader(handle, fragment);
  gl.linkProgram(handle);
  const discardShaders = (): void => {
    gl.deleteShader(vertex);
    gl.deleteShader(fragment);
  };
  return {
    isBuilt: () =>
      parallel === null ||
      gl.isContextLost() ||
      gl.getProgramParameter(handle, parallel.COMPLETION_STATUS_KHR),
    finish: () => {
      const built: boolean = gl.getProgramParameter(handle, gl.LINK_STATUS);
      const complaint = built ? '' : complaintOf(gl, chunks, [vertex, fragment], handle);
      discardShaders();
      if (!built) {
        gl.deleteProgram(handle);
        throw new ShaderError(complaint);
      }
      return { handle, ...uniformsOf(gl, handle) };
    },
    discard: () => {
      discardShaders();
      gl.deleteProgram(handle);
    },
  };
}

/** Builds a program and waits for it. @throws ShaderError naming the chunk and its line. */
export function buildProgram(gl: WebGL2RenderingContext, main: Chunk): Program {
  return startProgram(gl, main).finish();
}

/** Makes the textures readable under the names of their samplers in the program, which must be in use. */
export function bindTextures(
  gl: WebGL2RenderingContext,
  program: Program,
  textures: Readonly<Record<string, WebGLTexture>>,
): void {
  Object.entries(textures).forEach(([name, texture], unit) => {
    gl.activeTexture(gl.TEXTURE0 + unit);
    gl.bindTexture(gl.TEXTURE_2D, texture);
    const location = program.uniforms.get(name);
    if (location) gl.uniform1i(location, unit);
  });
}

/** Runs the program in use for every pixel of the viewport. */
export function drawAllPixels(gl: WebGL2RenderingContext): void {
  gl.bindVertexArray(null);
  gl.drawArrays(gl.TRIANGLES, 0, 3);
}

function startShader(gl: WebGL2RenderingContext, type: GLenum, source: string): WebGLShader {
  const shader = gl.createShader(type);
  if (!shader) throw new ShaderError('The graphics context was lost before a shader could be made.');
  gl.shaderSource(shader, source);
  gl.compileShader(shader);
  return shader;
}

function uniformsOf(
  gl: WebGL2RenderingContext,
  handle: WebGLProgram,
): Pick<Program, 'uniforms' | 'uniformTypes'> {
  const uniforms = new Map<string, WebGLUniformLocation>();
  const uniformTypes = new Map<string, GLenum>();
  const count: number = gl.getProgramParameter(handle, gl.ACTIVE_UNIFORMS);
  for (let i = 0; i < count; i++) {
    const active = gl.getActiveUniform(handle, i);
    const location = active && gl.getUniformLocation(handle, active.name);
    if (!active || !location) continue;
    const name = active.name.replace(/\[0\]$/, '');
    uniforms.set(name, location);
    uniformTypes.set(name, active.type);
  }
  return { uniforms, uniformTypes };
}

function complaintOf(
  gl: WebGL2RenderingContext,
  chunks: readonly Chunk[],
  shaders: readonly WebGLShader[],
  handle: WebGLProgram,
): string {
  if (gl.isContextLost()) return 'The graphics context was lost while a shader was being built.';
  const refused = shaders.find((shader) => !gl.getShaderParameter(shader, gl.COMPILE_STATUS));
  const log = (refused ? gl.getShaderInfoLog(refused) : gl.getProgramInfoLog(handle)) ?? '';
  return `The graphics driver did not accept the shader:\n${named(log, chunks).trim()}`;
}

/** "ERROR: 3:12: …" speaks of line 12 of the chunk numbered 3. */
function named(log: string, chunks: readonly Chunk[]): string {
  return log.replaceAll('\0', '').replace(/^(ERROR|WARNING): (\d+):(\d+):/gm, (whole, kind, number, line) => {
    const chunk = chunks[Number(number)];
    const text = chunk?.code.split('\n')[Number(line) - 1]?.trim();
    return chunk ? `${kind} in ${chunk.name}, line ${line} (${text}):` : whole;
  });
}
