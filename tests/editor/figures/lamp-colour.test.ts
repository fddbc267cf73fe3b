import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { LAMP_COLOURS, lampSign, lampSigns } from '../../../src/editor/figures/lamp-colour.ts';
import type { Lamp } from '../../../src/scene/schema/lamp.ts';

function lamp(id: string, name?: string): Lamp {
  return { id, head: 'any', position_m: [0, 2, 0], aim_m: [0, 0, 0], ...(name ? { name } : {}) };
}

const many = Array.from({ length: 40 }, (_, i) => lamp(`lamp-${i + 1}`, `Lamp ${i + 1}`));

describe('the sign of a lamp', () => {
  it('differs in colour or pattern among forty lamps, and in its initial among more', () => {
    const signs = [...lampSigns(many).values()];
    expect(new Set(signs.map(({ number, pattern }) => `${number} ${pattern}`)).size).toBe(40);
    const more = [...lampSigns([...many, ...many.map(({ id }) => lamp(`more-${id}`, 'Lamp'))]).values()];
    expect(new Set(more.map(({ initial }) => initial)).size).toBe(80);
  });

  it('stays when a lamp is added, moved, switched off or given a new name', () => {
    const three = [lamp('back', 'Backlight'), lamp('key', 'Key'), lamp('rim', 'Rim')];
    const before = three.map(({ id }) => lampSign({ lamps: three }, id));
    const after = [...three.map((one) => ({ ...one, on: false, level: 0.2 })), lamp('fill', 'Fill')];
    expect(three.map(({ id }) => lampSign({ lamps: after }, id))).toEqual(before);
    const renamed = three.map((one) => ({ ...one, name: `Large ${one.name}` }));
    expect(lampSign({ lamps: renamed }, 'key').fill).toBe(lampSign({ lamps: three }, 'key').fill);
  });

  it('takes its initial from the name, with the second word or the number where the first letter is taken', () => {
    const lamps = [lamp('a', 'Small rim'), lamp('b', 'Soft fill'), lamp('c', 'Sun'), lamp('d', 'Kicker 12')];
    expect(lamps.map(({ id }) => lampSign({ lamps }, id).initial)).toEqual(['S', 'SF', 'S2', 'K12']);
    expect(lampSign({ lamps: [lamp('x-1', '…')] }, 'x-1').initial).toBe('X');
  });

  it('is there for a lamp that the document has not', () => {
    expect(lampSign(undefined, 'gone').initial).toBe('G');
  });
});

/** Relative luminance of a colour as WCAG 2.2 defines it. */
function luminance(hex: string): number {
  const [r, g, b] = [1, 3, 5]
    .map((at) => Number.parseInt(hex.slice(at, at + 2), 16) / 255)
    .map((c) => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4));
  return 0.2126 * r! + 0.7152 * g! + 0.0722 * b!;
}

describe('the colours at night', () => {
  const css = readFileSync(new URL('../../../src/editor/styles/lamp-colours.css', import.meta.url), 'utf8');
  const night = css.slice(0, css.indexOf('[data-scheme'));
  const colours = Array.from(
    { length: LAMP_COLOURS },
    (_, i) => new RegExp(`--lamp-${i + 1}: (#[0-9a-f]{6})`).exec(night)![1]!,
  );

  it('are told apart by lightness alone, plain from plain and hatched from hatched', () => {
    for (const group of [colours.slice(0, 4), colours.slice(4)]) {
      const sorted = group.map(luminance).toSorted((a, b) => a - b);
      for (const [i, lighter] of sorted.slice(1).entries()) {
        expect((lighter + 0.05) / (sorted[i]! + 0.05)).toBeGreaterThan(1.5);
      }
    }
  });

  it('have little blue', () => {
    for (const colour of colours) {
      const [red, green, blue] = [1, 3, 5].map((at) => Number.parseInt(colour.slice(at, at + 2), 16));
      expect(blue).toBeLessThan(0.8 * Math.max(red!, green!));
    }
  });
});
