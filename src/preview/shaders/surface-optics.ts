import type { Chunk } from './chunk.ts';

/** How a surface reflects; models and conventions in the core's module. */
export const surfaceOptics: Chunk = {
  name: 'surface-optics',
  needs: [],
  code: /* glsl */ `
const int MATT = 0;
const int COATED = 1;
const int METAL = 2;

struct SurfaceOptics {
  int kind;
  // It has a coat or is a metal.
  bool glossy;
  vec3 baseRgb;
  float baseLuminance;
  float alpha;
  float coatIor;
  vec3 metalN;
  vec3 metalK;
  // The coat's table of directional albedo, as albedoNode knows it.
  int albedo;
  float baseScale;
};
`,
};
