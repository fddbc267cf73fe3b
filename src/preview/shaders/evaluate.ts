import type { Chunk } from './chunk.ts';
import { directionalAlbedo } from './directional-albedo.ts';
import { fresnel } from './fresnel.ts';
import { ggx } from './ggx.ts';
import { pi } from './pi.ts';
import { surfaceOptics } from './surface-optics.ts';

/** What a surface sends on, and how densely its directions are drawn. Directions are local, z along the normal. */
export const evaluate: Chunk = {
  name: 'evaluate',
  needs: [pi, surfaceOptics, directionalAlbedo, fresnel, ggx],
  code: /* glsl */ `
const int ALL = 0;
const int DIFFUSE = 1;
const int GLOSSY = 2;

// What the coat leaves of ρ/π.
float baseShare(SurfaceOptics optics, float cosI, float cosO) {
  if (!(cosI > 0.0 && cosO > 0.0)) return 0.0;
  if (optics.kind != COATED) return optics.baseScale;
  return optics.baseScale * ((1.0 - albedoAt(optics.albedo, cosI)) * (1.0 - albedoAt(optics.albedo, cosO)));
}

// f of the coat or the metal alone, 1/sr, linear RGB, not times the cosine.
vec3 glossyReflection(SurfaceOptics optics, vec3 i, vec3 o) {
  if (!optics.glossy || i.z <= 0.0 || o.z <= 0.0) return vec3(0.0);
  vec3 h = i + o;
  float l = length(h);
  float DV = normalDensity(optics.alpha, h / l) * visibility(optics.alpha, i.z, o.z);
  float cosTheta = min(1.0, 0.5 * l);
  if (optics.kind == COATED) return vec3(dielectricReflectance(cosTheta, optics.coatIor) * DV);
  return DV * vec3(
    conductorReflectance(cosTheta, optics.metalN.x, optics.metalK.x),
    conductorReflectance(cosTheta, optics.metalN.y, optics.metalK.y),
    conductorReflectance(cosTheta, optics.metalN.z, optics.metalK.z)
  );
}

// f, 1/sr, linear RGB, not times the cosine.
vec3 evaluateSurface(SurfaceOptics optics, vec3 i, vec3 o, int which) {
  vec3 f = which == GLOSSY ? vec3(0.0) : optics.baseRgb * (baseShare(optics, i.z, o.z) / PI);
  return which == DIFFUSE ? f : f + glossyReflection(optics, i, o);
}

// Chance that sampleSurface draws from the coat's or metal's lobe.
float glossyShare(SurfaceOptics optics, float cosO) {
  if (optics.kind != COATED || !(cosO > 0.0)) return optics.glossy ? 1.0 : 0.0;
  float E = albedoAt(optics.albedo, cosO);
  float base = optics.baseLuminance * (1.0 - E);
  return base > 0.0 ? E / (E + base) : 1.0;
}

// Density, 1/sr, with which sampleSurface draws i for o from one of its lobes, the chance of the lobe included. The share is
// glossyShare of o, for callers that ask for both lobes.
float lobePdf(SurfaceOptics optics, float share, vec3 i, vec3 o, bool fromGlossy) {
  if (!(i.z > 0.0 && o.z > 0.0)) return 0.0;
  if (!fromGlossy) return (1.0 - share) * i.z / PI;
  if (share == 0.0) return 0.0;
  return share * reflectionDensity(optics.alpha, normalize(i + o), o.z);
}
`,
};
