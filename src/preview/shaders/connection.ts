import type { Chunk } from './chunk.ts';
import { random } from './random.ts';

/** Lamp light on its way to a point of the path by one stop, before its shadow rays are traced. */
export const connection: Chunk = {
  name: 'connection',
  needs: [random],
  code: /* glsl */ `
struct Connection {
  // Direction it arrives from.
  vec3 w;
  // The lamp.
  int lamp;
  // What arrives, times the density with which this way was drawn, in linear RGB.
  vec3 value;
  // That density, per steradian; it is weighed by value/(own + density of the path's own directions).
  float own;
};

// What weighs a connection where it arrives, for choosing among candidates.
const int ARRIVAL_SURFACE = 0;
const int ARRIVAL_METER = 1;
const int ARRIVAL_HAZE = 2;

float arrivalWeight(int arrival, float cosine) {
  if (arrival == ARRIVAL_SURFACE) return max(0.0, cosine);
  return arrival == ARRIVAL_METER ? (1.0 + cosine) / 2.0 : 1.0;
}

// Adds a candidate to those so far and says whether it is kept in their stead, with a chance by its weight. What is left
// of the random number is even again, so one number serves any count of candidates.
bool keeps(float weight, inout float total, inout float choice) {
  if (!(weight > 0.0)) return false;
  total += weight;
  float share = weight / total;
  if (choice < share) {
    choice = min(choice / share, 0.99999994);
    return true;
  }
  choice = clamp((choice - share) / (1.0 - share), 0.0, 0.99999994);
  return false;
}
`,
};
