import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Glsl, openGlsl } from './support/glsl.ts';

let glsl: Glsl;
beforeAll(async () => {
  glsl = await openGlsl();
});
afterAll(() => glsl.close());

const doubled = { name: 'doubled', needs: [], code: 'float doubled(float x) { return 2.0 * x; }' };
const fourfold = {
  name: 'fourfold',
  needs: [doubled],
  code: 'float fourfold(float x) { return doubled(doubled(x)); }',
};

describe('GLSL run for many cases', () => {
  it('gives each case its own numbers and every float back', async () => {
    const cases = 5000;
    const given = Float32Array.from({ length: cases * 5 }, (_, i) => Math.fround(1e-3 * i - 7));
    const { values } = await glsl.evaluate({
      chunks: [fourfold, doubled],
      body: 'give(0, fourfold(given(0))); give(1, given3(1)); give(4, doubled(given(4)));',
      given,
      givenCount: 5,
      resultCount: 5,
    });
    // derived: a product by a power of two is exact.
    const expected = given.map((x, i) => (i % 5 === 0 ? 4 * x : i % 5 === 4 ? 2 * x : x));
    expect(values).toEqual(expected);
  });

  it('carries bits whatever they mean as a float', async () => {
    const given = Uint32Array.from([0, 1, 0x7fc00001, 0x7f800001, 0xffffffff, 0x80000000, 123456789, 5]);
    const { bits } = await glsl.evaluate({
      chunks: [],
      body: 'giveBits(0, givenBits(0)); giveBits(1, givenBits(1) + 1u);',
      given,
      givenCount: 2,
      resultCount: 2,
    });
    // derived: unsigned arithmetic wraps.
    expect([...bits]).toEqual([0, 2, 0x7fc00001, 0x7f800002, 0xffffffff, 0x80000001, 123456789, 6]);
  });

  it('names the chunk and the line of a mistake', async () => {
    const broken = {
      name: 'broken',
      needs: [doubled],
      code: '\nfloat broken() {\n  return dubbled(1.0);\n}',
    };
    await expect(
      glsl.evaluate({
        chunks: [fourfold, broken],
        body: 'give(0, broken());',
        given: new Float32Array(1),
        givenCount: 1,
        resultCount: 1,
      }),
    ).rejects.toThrow(/ERROR in broken, line 3 \(return dubbled\(1\.0\);\): .*dubbled/);
  });
});
