import { describe, expect, it } from 'vitest';
import { assembled, type Chunk, inOrder } from '../../../src/preview/shaders/chunk.ts';

const a: Chunk = { name: 'a', needs: [], code: 'A' };
const b: Chunk = { name: 'b', needs: [a], code: 'B' };
const c: Chunk = { name: 'c', needs: [a, b], code: 'C' };

describe('chunks of GLSL', () => {
  it('stand once each, after what they need', () => {
    expect(inOrder([c, b, a]).map((chunk) => chunk.name)).toEqual(['a', 'b', 'c']);
  });

  it('are numbered for the compiler, each with lines of its own', () => {
    expect(assembled([b])).toBe('#line 1 0\nA\n#line 1 1\nB\n');
  });

  it('may not share a name', () => {
    const other: Chunk = { name: 'a', needs: [], code: 'other' };
    expect(() => assembled([a, other])).toThrow('Two shader chunks are called "a"');
    expect(inOrder([a, { ...a }])).toHaveLength(1);
  });
});
