import { describe, expect, it } from 'vitest';
import { nearestName } from '../../../src/scene/problems/nearest-name.ts';

const FIELDS = ['level', 'position_m', 'aim_m', 'filters', 'fNumber'];

describe('nearest name', () => {
  it.each([
    ['levl', 'level'],
    ['lveel', 'level'],
    ['Level', 'level'],
    ['position', 'position_m'],
    ['aim', 'aim_m'],
    ['fnumber', 'fNumber'],
    ['fiters', 'filters'],
    ['aim_n', 'aim_m'],
  ])('%s means %s', (given, name) => expect(nearestName(given, FIELDS)).toBe(name));

  it.each(['xy', 'colour', 'zzzzzz', 'x'.repeat(101)])('%s is near to none', (given) =>
    expect(nearestName(given, FIELDS)).toBeUndefined(),
  );

  it('prefers the nearer of two', () => expect(nearestName('bac', ['back', 'bach-1'])).toBe('back'));
  it('knows none among none', () => expect(nearestName('level', [])).toBeUndefined());
});
