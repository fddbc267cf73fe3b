import { newFloatTexture } from '../../../src/preview/gl/float-texture.ts';
import { bindTextures, buildProgram, drawAllPixels } from '../../../src/preview/gl/program.ts';
import { setUniforms } from '../../../src/preview/gl/uniforms.ts';
import type { Chunk } from '../../../src/preview/shaders/chunk.ts';
import { textFromWords, wordsFromText } from './words.ts';

/** What the test asks of the page: everything as plain data. Words are given as text (words.ts). */
export interface PageJob {
  readonly main: Chunk;
  readonly caseCount: number;
  readonly givenCount: number;
  readonly resultCount: number;
  readonly given: string;
  readonly textures: Readonly<
    Record<string, { readonly width: number; readonly height: number; readonly words: string }>
  >;
  readonly uniforms: Readonly<Record<string, readonly number[]>>;
}

export interface PageOutcome {
  /** Result words of case after case. */
  readonly words: string;
  readonly build_ms: number;
  readonly draw_ms: number;
}

declare global {
  interface Window {
    keyfallEvaluate(job: PageJob): PageOutcome;
  }
}

/** Cases in a row of pixels, and the most rows that one draw covers: short draws, so that no watchdog barks. */
const ROW_CASES = 256;
const ROWS_A_DRAW = 16;

let kept: WebGL2RenderingContext | undefined;

function context(): WebGL2RenderingContext {
  const gl = kept ?? document.createElement('canvas').getContext('webgl2');
  if (!gl) throw new Error('This browser has no WebGL2.');
  kept = gl;
  return gl;
}

/** Words of four a texel in, words of four a texel out: every bit of a float or of an unsigned int arrives. */
function wordTexture(gl: WebGL2RenderingContext, width: number, height: number, words: Uint32Array | null) {
  const texture = gl.createTexture();
  gl.bindTexture(gl.TEXTURE_2D, texture);
  gl.texStorage2D(gl.TEXTURE_2D, 1, gl.RGBA32UI, width, height);
  gl.texParameteri(gl.TEXTURE_2D, gl.TEXTURE_MIN_FILTER, gl.NEAREST);
  gl.texParameteri(gl.TEXTURE_2D, gl.TEXTURE_MAG_FILTER, gl.NEAREST);
  if (words) gl.texSubImage2D(gl.TEXTURE_2D, 0, 0, 0, width, height, gl.RGBA_INTEGER, gl.UNSIGNED_INT, words);
  return texture;
}

window.keyfallEvaluate = (job) => {
  const gl = context();
  const began = performance.now();
  const program = buildProgram(gl, job.main);
  const built = performance.now();

  const givenTexels = Math.max(1, Math.ceil(job.givenCount / 4));
  const resultTexels = Math.ceil(job.resultCount / 4);
  const rows = Math.ceil(job.caseCount / ROW_CASES);
  const given = new Uint32Array(givenTexels * ROW_CASES * rows * 4);
  given.set(wordsFromText(job.given));
  const textures: Record<string, WebGLTexture> = {
    parityGiven: wordTexture(gl, givenTexels * ROW_CASES, rows, given),
  };
  for (const [name, { width, height, words }] of Object.entries(job.textures))
    textures[name] = newFloatTexture(gl, {
      width,
      height,
      data: new Float32Array(wordsFromText(words).buffer),
    });

  const output = wordTexture(gl, resultTexels * ROW_CASES, rows, null);
  const framebuffer = gl.createFramebuffer();
  gl.bindFramebuffer(gl.FRAMEBUFFER, framebuffer);
  gl.framebufferTexture2D(gl.FRAMEBUFFER, gl.COLOR_ATTACHMENT0, gl.TEXTURE_2D, output, 0);
  gl.viewport(0, 0, resultTexels * ROW_CASES, rows);
  gl.useProgram(program.handle);
  bindTextures(gl, program, textures);
  setUniforms(gl, program, job.uniforms);
  gl.enable(gl.SCISSOR_TEST);
  const words = new Uint32Array(resultTexels * ROW_CASES * rows * 4);
  const drawn = performance.now();
  for (let row = 0; row < rows; row += ROWS_A_DRAW) {
    const height = Math.min(ROWS_A_DRAW, rows - row);
    gl.scissor(0, row, resultTexels * ROW_CASES, height);
    drawAllPixels(gl);
    const part = words.subarray(row * resultTexels * ROW_CASES * 4);
    gl.readPixels(0, row, resultTexels * ROW_CASES, height, gl.RGBA_INTEGER, gl.UNSIGNED_INT, part);
  }
  gl.disable(gl.SCISSOR_TEST);
  const done = performance.now();
  const error = gl.getError();
  if (error !== gl.NO_ERROR) throw new Error(`WebGL error ${error} while evaluating.`);

  gl.deleteFramebuffer(framebuffer);
  for (const texture of [output, ...Object.values(textures)]) gl.deleteTexture(texture);
  gl.deleteProgram(program.handle);
  return { words: textFromWords(words), build_ms: built - began, draw_ms: done - drawn };
};
