import { fileURLToPath } from 'node:url';
import type { Browser } from 'playwright-core';
import type { Texels } from '../../../src/preview/pack/texels.ts';
import { type Chunk, inOrder } from '../../../src/preview/shaders/chunk.ts';
import { launchBrowser } from '../../browser/support/open-page.ts';
import { openBarePage } from './page-bundle.ts';
import { textFromWords, wordsFromText, wordsOf } from './words.ts';

/**
 * A piece of GLSL, run once a case. In `body`: `given(k)`, `given3(k)` and `givenBits(k)` read the k-th number of the
 * case (a float, three floats from there, the raw bits of one), `give(k, …)` answers with a float or a vec3 from the
 * k-th result on, `giveBits(k, …)` with an unsigned int.
 */
export interface GlslCases {
  readonly chunks: readonly Chunk[];
  readonly body: string;
  /** Numbers of case after case; a Uint32Array where bits matter. */
  readonly given: Float32Array | Uint32Array;
  /** Numbers a case. */
  readonly givenCount: number;
  /** Results a case, 32 at most. */
  readonly resultCount: number;
  readonly textures?: Readonly<Record<string, Texels>>;
  /** Uniforms by name, each by its numbers. */
  readonly uniforms?: Readonly<Record<string, readonly number[]>>;
}

export interface GlslResults {
  /** Results of case after case. */
  readonly values: Float32Array;
  /** The same, as bits. */
  readonly bits: Uint32Array;
  readonly build_ms: number;
  readonly draw_ms: number;
}

export interface Glsl {
  evaluate(cases: GlslCases): Promise<GlslResults>;
  close(): Promise<void>;
}

/** A page in which GLSL can be run; one serves a whole test file. */
export async function openGlsl(): Promise<Glsl> {
  const browser: Browser = await launchBrowser();
  const entry = fileURLToPath(new URL('page-evaluator.ts', import.meta.url));
  const { page } = await openBarePage(browser, entry);
  return {
    close: () => browser.close(),
    evaluate: async (cases) => {
      const { given, givenCount, resultCount, textures = {}, uniforms = {} } = cases;
      const caseCount = givenCount > 0 ? given.length / givenCount : 1;
      if (!Number.isInteger(caseCount))
        throw new Error(`${given.length} numbers given do not make cases of ${givenCount}.`);
      if (resultCount > MOST_RESULTS)
        throw new Error(`${resultCount} results a case: at most ${MOST_RESULTS}.`);
      const outcome = await page.evaluate((job) => window.keyfallEvaluate(job), {
        main: mainOf(cases),
        caseCount,
        givenCount,
        resultCount,
        given: textFromWords(paddedToTexels(given, caseCount, givenCount)),
        textures: Object.fromEntries(
          Object.entries(textures).map(([name, { width, height, data }]) => [
            name,
            { width, height, words: textFromWords(wordsOf(data)) },
          ]),
        ),
        uniforms,
      });
      const bits = withoutPadding(wordsFromText(outcome.words), caseCount, resultCount);
      return { ...outcome, bits, values: new Float32Array(bits.buffer) };
    },
  };
}

const MOST_RESULTS = 32;

function mainOf({ chunks, body, givenCount, resultCount }: GlslCases): Chunk {
  const givenTexels = Math.max(1, Math.ceil(givenCount / 4));
  const resultTexels = Math.ceil(resultCount / 4);
  // In one flat list, for the way to the page would make copies of what two chunks both need.
  const needs = inOrder(chunks).map(({ name, code }) => ({ name, code, needs: [] }));
  const code = `
uniform highp usampler2D parityGiven;
layout(location = 0) out uvec4 parityResult;
uint parityResults[${resultTexels * 4}];
uint givenBits(int k) {
  ivec2 pixel = ivec2(gl_FragCoord.xy);
  return texelFetch(parityGiven, ivec2(pixel.x / ${resultTexels} * ${givenTexels} + k / 4, pixel.y), 0)[k % 4];
}
float given(int k) { return uintBitsToFloat(givenBits(k)); }
vec3 given3(int k) { return vec3(given(k), given(k + 1), given(k + 2)); }
void giveBits(int k, uint bits) { parityResults[k] = bits; }
void give(int k, float value) { giveBits(k, floatBitsToUint(value)); }
void give(int k, vec3 value) { give(k, value.x); give(k + 1, value.y); give(k + 2, value.z); }
void evaluate() {
${body}
}
void main() {
  for (int k = 0; k < ${resultTexels * 4}; k++) parityResults[k] = 0u;
  evaluate();
  int first = int(gl_FragCoord.x) % ${resultTexels} * 4;
  parityResult = uvec4(parityResults[first], parityResults[first + 1], parityResults[first + 2], parityResults[first + 3]);
}`;
  return { name: 'the test', needs, code };
}

function paddedToTexels(
  given: Float32Array | Uint32Array,
  caseCount: number,
  givenCount: number,
): Uint32Array {
  const words = given instanceof Float32Array ? wordsOf(given) : given;
  const stride = Math.max(1, Math.ceil(givenCount / 4)) * 4;
  const padded = new Uint32Array(caseCount * stride);
  for (let i = 0; i < caseCount; i++)
    padded.set(words.subarray(i * givenCount, (i + 1) * givenCount), i * stride);
  return padded;
}

function withoutPadding(words: Uint32Array, caseCount: number, resultCount: number): Uint32Array {
  const stride = Math.ceil(resultCount / 4) * 4;
  const results = new Uint32Array(caseCount * resultCount);
  for (let i = 0; i < caseCount; i++)
    results.set(words.subarray(i * stride, i * stride + resultCount), i * resultCount);
  return results;
}
