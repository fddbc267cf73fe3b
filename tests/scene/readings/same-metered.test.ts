import { describe, expect, it } from 'vitest';
import { sameMetered } from '../../../src/scene/readings/same-metered.ts';
import { fullScene } from '../../support/scenes.ts';

describe('the same readings', () => {
  const [one, other] = fullScene().readings!;

  it('are the same whatever they remember of their lamps', () => {
    const { taken: _, ...bare } = one!;
    expect(sameMetered([one!, other!], [bare, { ...other!, taken: [{ lamp: 'back', level: 1 }] }])).toBe(
      true,
    );
    expect(sameMetered(undefined, [])).toBe(true);
  });

  it('are not where another figure, another lamp or another reading came', () => {
    for (const readings of [
      [{ ...one!, illuminance_lx: 138 }, other!],
      [{ ...one!, lamps: ['back'] }, other!],
      [one!],
      [other!, one!],
    ])
      expect(sameMetered([one!, other!], readings)).toBe(false);
  });
});
