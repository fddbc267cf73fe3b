import type { Chunk } from './chunk.ts';
import { transportTables } from './transport-tables.ts';

/** A lamp's point unfolded through the plane of a glossy face, as seen from x; equations in the core's module. */
export const unfolding: Chunk = {
  name: 'unfolding',
  needs: [transportTables],
  code: /* glsl */ `
struct Unfolding {
  float side;
  // Where the straight line to the image meets the plane, in the face's own axes.
  vec2 q;
  // Unit tangential direction from x toward the image, in the face's own axes.
  vec2 e;
  float whole_m;
  float share;
  float cosine;
  float curve;
};

// From x and the lamp's point in the face's own axes: across, up, and before it.
bool unfold(MirrorFace face, vec3 x, vec3 s, out Unfolding found) {
  float side = x.z > 0.0 ? 1.0 : -1.0;
  if ((side < 0.0 && face.oneSided) || side * x.z < 1e-6 || side * s.z < 1e-6) return false;
  float heights = side * (x.z + s.z);
  float share = side * x.z / heights;
  vec2 t = s.xy - x.xy;
  float tangential = length(t);
  float whole = sqrt(tangential * tangential + heights * heights);
  found.side = side;
  found.share = share;
  found.whole_m = whole;
  found.cosine = heights / whole;
  found.curve = 1.0 / (share * whole) + 1.0 / ((1.0 - share) * whole);
  found.q = x.xy + share * t;
  found.e = tangential > 1e-7 ? t / tangential : vec2(1.0, 0.0);
  return true;
}

// Density, per m² of the face, of the slopes of GGX at q.
float unfoldedDensity(Unfolding at, float alpha, vec2 q) {
  vec2 d = q - at.q;
  float along = dot(d, at.e) * at.curve * at.cosine / 2.0;
  float across = (d.y * at.e.x - d.x * at.e.y) * at.curve / (2.0 * at.cosine);
  float a2 = alpha * alpha;
  float spread = 1.0 + (along * along + across * across) / a2;
  return at.curve * at.curve / (4.0 * PI * a2 * spread * spread);
}
`,
};
