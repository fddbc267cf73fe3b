import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { mergePatch } from '../../../src/scene/setups/merge-patch.ts';
import { frozen } from '../../support/scenes.ts';

describe('JSON merge patch', () => {
  // published: RFC 7396 (2014), appendix A, all fifteen cases, from memory.
  it.each([
    ['{"a":"b"}', '{"a":"c"}', '{"a":"c"}'],
    ['{"a":"b"}', '{"b":"c"}', '{"a":"b","b":"c"}'],
    ['{"a":"b"}', '{"a":null}', '{}'],
    ['{"a":"b","b":"c"}', '{"a":null}', '{"b":"c"}'],
    ['{"a":["b"]}', '{"a":"c"}', '{"a":"c"}'],
    ['{"a":"c"}', '{"a":["b"]}', '{"a":["b"]}'],
    ['{"a":{"b":"c"}}', '{"a":{"b":"d","c":null}}', '{"a":{"b":"d"}}'],
    ['{"a":[{"b":"c"}]}', '{"a":[1]}', '{"a":[1]}'],
    ['["a","b"]', '["c","d"]', '["c","d"]'],
    ['{"a":"b"}', '["c"]', '["c"]'],
    ['{"a":"foo"}', 'null', 'null'],
    ['{"a":"foo"}', '"bar"', '"bar"'],
    ['{"e":null}', '{"a":1}', '{"e":null,"a":1}'],
    ['[1,2]', '{"a":"b","c":null}', '{"a":"b"}'],
    ['{}', '{"a":{"bb":{"ccc":null}}}', '{"a":{"bb":{}}}'],
  ])('%s with %s is %s', (target, patch, result) => {
    expect(JSON.stringify(mergePatch(frozen(JSON.parse(target)), frozen(JSON.parse(patch))))).toBe(result);
  });

  // published: RFC 7396, section 3, the worked example, from memory.
  it('makes of the worked example what the standard says', () => {
    const target = {
      title: 'Goodbye!',
      author: { givenName: 'John', familyName: 'Doe' },
      tags: ['example', 'sample'],
      content: 'This will be unchanged',
    };
    const patch = {
      title: 'Hello!',
      phoneNumber: '+01-123-456-7890',
      author: { familyName: null },
      tags: ['example'],
    };
    expect(mergePatch(frozen(target), frozen(patch))).toEqual({
      title: 'Hello!',
      author: { givenName: 'John' },
      tags: ['example'],
      content: 'This will be unchanged',
      phoneNumber: '+01-123-456-7890',
    });
  });

  it('shares what it does not change', () => {
    const target = { kept: { deep: [1, 2] }, changed: { a: 1, other: { b: 2 } } };
    const merged = mergePatch(target, { changed: { a: 2 } }) as typeof target;
    expect(merged.kept).toBe(target.kept);
    expect(merged.changed.other).toBe(target.changed.other);
  });

  it('treats the names of prototypes as names', () => {
    const patch = JSON.parse('{"__proto__": {"polluted": true}, "constructor": {"x": 1}, "toString": null}');
    const merged = mergePatch({ a: 1 }, patch) as object;
    expect(Object.getPrototypeOf(merged)).toBe(Object.prototype);
    expect(Object.keys(merged).sort()).toEqual(['__proto__', 'a', 'constructor']);
    expect(Object.getOwnPropertyDescriptor(merged, 'constructor')?.value).toEqual({ x: 1 });
    expect(({} as { polluted?: unknown }).polluted).toBeUndefined();
  });

  it('twice is the same as once, and an empty patch changes nothing', () => {
    fc.assert(
      fc.property(fc.jsonValue(), fc.jsonValue(), (target, patch) => {
        const once = mergePatch(target, patch);
        expect(mergePatch(once, patch)).toEqual(once);
        if (typeof target === 'object' && target !== null && !Array.isArray(target))
          expect(mergePatch(target, {})).toEqual(target);
      }),
      { seed: 7396, numRuns: 300 },
    );
  });
});
