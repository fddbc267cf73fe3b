import { describe, expect, it } from 'vitest';
import { CAUTIONS, cautionsFor, PLANNING_AID } from '../../src/paperwork/cautions.ts';

describe('cautions', () => {
  it('begin with whose word counts', () => {
    expect(cautionsFor()).toEqual([PLANNING_AID]);
    expect(PLANNING_AID).toMatch(/^Planning aid only\. Local codes, .* override every figure\.$/);
    expect(cautionsFor('haze', 'eyes')).toEqual([PLANNING_AID, ...CAUTIONS.haze, ...CAUTIONS.eyes]);
  });

  it('never say that something is safe', () => {
    const all = Object.values(CAUTIONS).flat();
    for (const sentence of all) expect(sentence).toMatch(/\.$/);
    expect(all.join(' ')).not.toMatch(/\bsafe\b/i);
  });

  it('leave distribution to a qualified person, and judge no ampacity', () => {
    expect(CAUTIONS.electrical.join(' ')).toMatch(/qualified person/);
    expect(CAUTIONS.electrical.join(' ')).toMatch(/without overheating is not judged/);
    expect(CAUTIONS.generators.join(' ')).toMatch(/carbon monoxide/);
    expect(CAUTIONS.stands.join(' ')).toMatch(/without any safety factor/);
  });
});
