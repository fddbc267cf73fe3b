import { expect, it } from 'vitest';
import { madeOnce } from '../../../src/core/memo/made-once.ts';

it('makes one thing of each object, be it nothing', () => {
  let made = 0;
  const numberOf = madeOnce(({ is }: { is: number | undefined }) => {
    made++;
    return is;
  });
  const [one, nothing] = [{ is: 1 }, { is: undefined }];
  expect([one, nothing, one, nothing, { is: 1 }].map(numberOf)).toEqual([1, undefined, 1, undefined, 1]);
  expect(made).toBe(3);
});
