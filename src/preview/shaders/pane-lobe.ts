import type { Chunk } from './chunk.ts';
import { nearOne } from './near-one.ts';
import { pi } from './pi.ts';

/** How a pane scatters; model in the core's module. */
export const paneLobe: Chunk = {
  name: 'pane-lobe',
  needs: [pi, nearOne],
  code: /* glsl */ `
const int PANE_NODES = 64;

struct PaneLobe {
  float exponent;
  float normalisation;
  // The pane's table of excess, as excessNode knows it.
  int excess;
};

// Entry k of a table of excess. Defined where the light model is read.
float excessNode(int table, int k);

// p(δ), per steradian.
float lobeDensity(PaneLobe lobe, float cosDelta) {
  if (cosDelta <= 0.0) return 0.0;
  return (lobe.exponent + 1.0) / TWO_PI * powerOf(cosDelta, lobe.exponent);
}

// cos δ drawn from the lobe.
float sampleLobe(PaneLobe lobe, float u) {
  return exp(log1p(-u) / (lobe.exponent + 1.0));
}

float excessAt(PaneLobe lobe, float cosine) {
  return excessNode(lobe.excess, min(PANE_NODES - 1, int(floor(sqrt(cosine) * float(PANE_NODES)))));
}

// f for scattered = 1; cosines to the pane's normal, both positive.
float lobeTransmission(PaneLobe lobe, float cosIn, float cosOut, float cosDelta) {
  float excess = max(excessAt(lobe, cosIn), excessAt(lobe, cosOut));
  return lobe.normalisation * lobeDensity(lobe, cosDelta) / sqrt(cosIn * cosOut) / excess;
}

// Weight of a path that was turned by sampleLobe, for scattered = 1: it left at cosOut and comes from cosIn.
float scatteredWeight(PaneLobe lobe, float cosIn, float cosOut) {
  float excess = max(excessAt(lobe, cosIn), excessAt(lobe, cosOut));
  return lobe.normalisation * sqrt(cosIn / cosOut) / excess;
}
`,
};
