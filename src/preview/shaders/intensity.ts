import { beamTable } from './beam-table.ts';
import type { Chunk } from './chunk.ts';
import { everyFeature } from './features.ts';

/**
 * Luminous intensity of a lamp toward a direction in its own frame. A table's numbers stand one after another: vertical
 * angles, horizontal angles, then the candela of plane after plane, all read by `photometryAt`.
 */
export const intensity: Chunk = {
  name: 'intensity',
  needs: [everyFeature, beamTable],
  code: /* glsl */ `
const int LAMBERT = 0;
const int BEAM = 1;
const int TYPE_A = 2;
const int TYPE_B = 3;
const int TYPE_C = 4;

struct Distribution {
  // LAMBERT, BEAM, or the goniometry of a table.
  int kind;
  // Of a Lambertian lamp.
  float peak_cd;
  // Of a beam: the place of its first candela.
  BeamTable beam;
  // Of a table: the place of its first number, how many vertical and how many horizontal angles.
  int at;
  int verticals;
  int horizontals;
};

// Directions this close outside the measured range count as on its edge: rounding must not darken a rim.
const float EDGE_DEG = 1e-4;

// Degrees of atan(y, x), 0 where both are 0.
float degreesOf(float y, float x) {
  return degrees(atan(y, x == 0.0 && y == 0.0 ? 1.0 : x));
}

// Index of the interval of count increasing angles that holds x, or −1 outside all of them, and how far along it x lies.
int intervalAt(int angles, int count, float x, out float share) {
  float first = photometryAt(angles);
  float last = photometryAt(angles + count - 1);
  share = 0.0;
  if (!(x >= first - EDGE_DEG && x <= last + EDGE_DEG)) return -1;
  // Most files step evenly, so the proportional guess hits; uneven ones fall through to bisection.
  int low = clamp(int((x - first) / (last - first) * float(count - 1)), 0, count - 2);
  float from = photometryAt(angles + low);
  float to = photometryAt(angles + low + 1);
  if (x < from || x >= to) {
    low = 0;
    int high = count - 2;
    while (low < high) {
      int middle = (low + high + 1) / 2;
      if (photometryAt(angles + middle) <= x) low = middle;
      else high = middle - 1;
    }
    from = photometryAt(angles + low);
    to = photometryAt(angles + low + 1);
  }
  share = clamp((x - from) / (to - from), 0.0, 1.0);
  return low;
}

float tabulatedIntensity(Distribution table, float horizontal_deg, float vertical_deg) {
  float s;
  int v = intervalAt(table.at, table.verticals, vertical_deg, s);
  if (v < 0) return 0.0;
  int candela = table.at + table.verticals + table.horizontals + v;
  // One plane: the same all round.
  if (table.horizontals == 1) return mix(photometryAt(candela), photometryAt(candela + 1), s);
  float u;
  int h = intervalAt(table.at + table.verticals, table.horizontals, horizontal_deg, u);
  if (h < 0) return 0.0;
  int near = candela + h * table.verticals;
  int far = near + table.verticals;
  return mix(
    mix(photometryAt(near), photometryAt(near + 1), s),
    mix(photometryAt(far), photometryAt(far + 1), s),
    u
  );
}

// Candela toward the unit vector of components r right, t top, a along the axis.
float intensityToward(Distribution distribution, float r, float t, float a) {
  int kind = distribution.kind;
  if (kind == LAMBERT) return a > 0.0 ? distribution.peak_cd * a : 0.0;
#if HAS_TABLES
  if (kind == BEAM) return tabulatedBeam(distribution.beam, r, t, a);
  float horizontal_deg;
  float vertical_deg;
  if (kind == TYPE_C) {
    float c_deg = degreesOf(t, r);
    horizontal_deg = c_deg < 0.0 ? c_deg + 360.0 : c_deg;
    vertical_deg = degreesOf(sqrt(r * r + t * t), a);
  } else if (kind == TYPE_A) {
    horizontal_deg = degreesOf(r, a);
    vertical_deg = degreesOf(t, sqrt(r * r + a * a));
  } else {
    horizontal_deg = degreesOf(r, sqrt(t * t + a * a));
    vertical_deg = degreesOf(t, a);
  }
  return tabulatedIntensity(distribution, horizontal_deg, vertical_deg);
#else
  return tabulatedBeam(distribution.beam, r, t, a);
#endif
}
`,
};
