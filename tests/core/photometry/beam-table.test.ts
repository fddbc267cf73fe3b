import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { beamTableOf, tabulatedBeam } from '../../../src/core/photometry/beam-table.ts';
import type { Distribution } from '../../../src/core/photometry/distribution.ts';
import { intensityToward } from '../../../src/core/photometry/intensity.ts';

describe('the tabulated beam', () => {
  it('is the profile, for any beam and any direction', () => {
    // derived: the profile itself, by arc tangent, logarithm and exponential
    const cases = fc.record({
      beam_deg: fc.double({ min: 3, max: 120, noNaN: true }),
      ratio: fc.double({ min: 1.15, max: 2.5, noNaN: true }),
      share: fc.double({ min: 0, max: 1, noNaN: true }),
      turn: fc.double({ min: 0, max: 6.28, noNaN: true }),
    });
    fc.assert(
      fc.property(cases, ({ beam_deg, ratio, share, turn }) => {
        const beam: Distribution = { kind: 'beam', peak_cd: 1, beam_deg, field_deg: beam_deg * ratio };
        const gamma = (Math.min(180, 2 * beam_deg * ratio) * share * Math.PI) / 180;
        const [s, a] = [Math.sin(gamma), Math.cos(gamma)];
        const wanted = intensityToward(beam, s * Math.cos(turn), s * Math.sin(turn), a);
        const got = tabulatedBeam(beamTableOf(beam)!, a);
        expect(Math.abs(got - wanted)).toBeLessThan(1e-4);
      }),
      { seed: 5, numRuns: 3000 },
    );
  });

  it('is made once for a beam, and for beams only', () => {
    const beam: Distribution = { kind: 'beam', peak_cd: 10, beam_deg: 20, field_deg: 35 };
    expect(beamTableOf(beam)).toBe(beamTableOf(beam));
    expect(beamTableOf({ kind: 'lambert', peak_cd: 10 })).toBeNull();
    expect(tabulatedBeam(beamTableOf(beam)!, 1)).toBe(10);
    expect(tabulatedBeam(beamTableOf(beam)!, -1)).toBe(0);
  });
});
