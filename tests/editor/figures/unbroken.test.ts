import { expect, it } from 'vitest';
import { unbroken } from '../../../src/editor/figures/unbroken.ts';

it('a number stays with its unit, and words break as ever', () => {
  expect(unbroken('camera a · 35 mm on 36 × 20.2 mm · f/4 · 1/50 s')).toBe(
    'camera a · 35\u00a0mm on 36 × 20.2\u00a0mm · f/4 · 1/50\u00a0s',
  );
  expect(unbroken('drop 2.8 %, within')).toBe('drop 2.8\u00a0%, within');
});
