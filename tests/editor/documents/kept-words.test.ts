import { describe, expect, it } from 'vitest';
import { whenChanged } from '../../../src/editor/documents/kept-words.ts';

const at = (text: string) => new Date(text).getTime();

describe('when a scene was changed', () => {
  it.each([
    ['2027-03-04T21:40', '2027-03-04T23:59', 'today 21:40'],
    ['2027-03-03T23:05', '2027-03-04T00:10', 'yesterday 23:05'],
    ['2027-01-12T20:10', '2027-03-04T00:10', '12 Jan 20:10'],
    ['2026-12-31T08:00', '2027-03-04T00:10', '31 Dec 2026 08:00'],
  ])('%s, seen %s', (changed, now, words) => expect(whenChanged(at(changed), at(now))).toBe(words));
});
