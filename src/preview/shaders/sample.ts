import type { Chunk } from './chunk.ts';
import { circle } from './circle.ts';
import { evaluate } from './evaluate.ts';

/** Directions drawn from a surface. */
export const sample: Chunk = {
  name: 'sample',
  needs: [evaluate, circle],
  code: /* glsl */ `
struct SurfaceSample {
  // Unit direction, local.
  vec3 w;
  // Density of the direction, 1/sr, with the chance of the lobe: of the lobe it was drawn from, or over both.
  float pdf;
  // f·cos θ/pdf of that lobe, or of both.
  vec3 weight;
  // Drawn from the coat's or metal's lobe, not from the base.
  bool glossy;
};

// Draws a direction for o by the numbers u and v, its lobe by w. False where the draw ended below the surface.
bool sampleSurface(SurfaceOptics optics, vec3 o, float u, float v, float w, bool apart, out SurfaceSample drawn) {
  drawn = SurfaceSample(vec3(0.0, 0.0, 1.0), 0.0, vec3(0.0), false);
  if (!(o.z > 0.0)) return false;
  vec2 turn = unitCircle(v);
  float share = glossyShare(optics, o.z);
  drawn.glossy = w < share;
  if (drawn.glossy) {
    vec3 normal = visibleNormal(optics.alpha, o, u, turn.x, turn.y);
    drawn.w = 2.0 * dot(o, normal) * normal - o;
  } else {
    drawn.w = vec3(sqrt(u) * turn, sqrt(1.0 - u));
  }
  float pdf = lobePdf(optics, share, drawn.w, o, drawn.glossy);
  if (pdf == 0.0) return false;
  if (!apart) pdf += lobePdf(optics, share, drawn.w, o, !drawn.glossy);
  int which = apart ? (drawn.glossy ? GLOSSY : DIFFUSE) : ALL;
  drawn.pdf = pdf;
  drawn.weight = evaluateSurface(optics, drawn.w, o, which) * (drawn.w.z / pdf);
  return true;
}
`,
};
