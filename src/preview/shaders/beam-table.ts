import type { Chunk } from './chunk.ts';

/**
 * The tabulated profile of a beam, as the core makes it; its candela are read by `photometryAt`. The chord is taken from what
 * lies across the axis, c² = 2(r² + t²)/(1 + a): in single precision 2 − 2a would know it near the axis to 0.02° only.
 */
export const beamTable: Chunk = {
  name: 'beam-table',
  needs: [],
  code: /* glsl */ `
// The i-th of the packed photometric numbers. Defined where the light model is read.
float photometryAt(int i);

// Even steps of the chord from 0 to the last one of a table.
const int BEAM_STEPS = 2048;

struct BeamTable {
  // Place of its first candela.
  int candela;
  float stepsPerChord;
};

// Candela toward a unit vector of which a lies along the axis and r, t across it.
float tabulatedBeam(BeamTable table, float r, float t, float a) {
  float chord = sqrt(a > 0.0 ? 2.0 * (r * r + t * t) / (1.0 + a) : 2.0 - 2.0 * a);
  float steps = chord * table.stepsPerChord;
  int i = int(floor(steps));
  if (i > BEAM_STEPS) return 0.0;
  return mix(photometryAt(table.candela + i), photometryAt(table.candela + i + 1), steps - float(i));
}
`,
};
