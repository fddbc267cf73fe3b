import { describe, expect, it } from 'vitest';
import { glslReader, glslStruct, readStruct, struct, writeStruct } from '../../../src/preview/pack/struct.ts';

const INNER = struct('Inner', { flag: 'bool', pair: 'vec2' });
const OUTER = struct('Outer', { where: 'vec3', count: 'int', inner: INNER, four: 'vec4', last: 'float' });

describe('a struct in texels', () => {
  it('puts no field across two texels and wastes no texel that has room', () => {
    // derived: where + count fill the first, flag + pair + last the second, four the third.
    expect(OUTER.texelCount).toBe(3);
    const at = Object.fromEntries(
      OUTER.places.map(({ path, texel, component }) => [path.join('.'), [texel, component]]),
    );
    expect(at).toEqual({
      where: [0, 0],
      count: [0, 3],
      'inner.flag': [1, 0],
      'inner.pair': [1, 1],
      four: [2, 0],
      last: [1, 3],
    });
  });

  it('is read as it was written, and touches nothing else', () => {
    const values = {
      where: [1, -2, 3.5],
      count: -7,
      inner: { flag: true, pair: [0.25, 0.5] },
      four: [9, 8, 7, 6],
      last: 1e-3,
    } as const;
    const data = new Float32Array(5 * 4);
    writeStruct(OUTER, values, data, 1);
    expect(readStruct(OUTER, data, 1)).toEqual({ ...values, last: Math.fround(1e-3) });
    expect([...data.subarray(0, 4), ...data.subarray(16)]).toEqual([0, 0, 0, 0, 0, 0, 0, 0]);
  });

  it('refuses whole numbers that a float cannot hold', () => {
    const data = new Float32Array(4);
    const one = struct('One', { n: 'int' });
    writeStruct(one, { n: 2 ** 24 }, data, 0);
    expect(() => writeStruct(one, { n: 2 ** 24 + 1 }, data, 0)).toThrow('One.n is 16777217');
    expect(() => writeStruct(one, { n: 0.5 }, data, 0)).toThrow('One.n is 0.5');
  });

  it('reads the same places in GLSL', () => {
    expect(glslStruct(OUTER)).toContain('  Inner inner;\n');
    expect(glslReader(OUTER, 'readOuter', 'texel')).toBe(
      'Outer readOuter(int at) {\n' +
        '  vec4 t0 = texel(at + 0);\n  vec4 t1 = texel(at + 1);\n  vec4 t2 = texel(at + 2);\n' +
        '  return Outer(t0.xyz, int(t0.w), Inner(t1.x > 0.5, t1.yz), t2.xyzw, t1.w);\n}\n',
    );
  });
});
