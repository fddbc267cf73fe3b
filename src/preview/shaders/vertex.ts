import type { Chunk } from './chunk.ts';
import { evaluate } from './evaluate.ts';
import { everyFeature } from './features.ts';
import { henyeyGreenstein } from './henyey-greenstein.ts';
import { packedHaze } from './packed-haze.ts';
import { surfaceLamps } from './surface-lamps.ts';
import { surfacePoint } from './surface-point.ts';

/** A vertex of a path, and what it makes of light. */
export const vertex: Chunk = {
  name: 'vertex',
  needs: [everyFeature, surfaceLamps, surfacePoint, evaluate, henyeyGreenstein, packedHaze],
  code: /* glsl */ `
struct Vertex {
  // Where it stands; a place of haze, else a point of a surface, a pane or a meter.
  vec3 x;
  bool inHaze;
  // Whether it asks for light by one stop on the way, for light of lamps, for airlight of the stretch before it.
  bool connects;
  // Whether what stands there asks for light by one stop, be it haze that asks or not.
  bool asksHere;
  bool lit;
  bool airlit;
  // How it answers lamps, and with what share of the path's light.
  LitPoint point;
  float share;
  SurfaceOptics optics;
  bool sharp;
  // The stretch before it: where it comes from, its direction, and what share of its airlight is left to the path.
  vec3 from;
  vec3 along;
  float airShare;
  int tries;
  // What the path sends on of what arrives here.
  vec3 carries;
  // Where the path goes on.
  vec3 next;
};

// What the vertex sends on along the path of light that arrives from w, and the density of the path's own directions there.
vec3 answerOf(Vertex at, vec3 w, out float density) {
  if (at.inHaze) {
    density = henyeyGreenstein(theHaze().anisotropy, dot(w, at.along));
    return vec3(density);
  }
  if (at.point.kind == AT_METER) {
    float mu = dot(w, at.point.at.n);
    density = (1.0 + mu) / (4.0 * PI);
    return vec3(receptorResponse(at.point.dome, mu));
  }
  vec3 i = inAxesOf(at.point.at, w);
  float share = glossyShare(at.optics, at.point.at.o.z);
  density = lobePdf(at.optics, share, i, at.point.at.o, false);
  if (!at.sharp) density += lobePdf(at.optics, share, i, at.point.at.o, true);
  return max(0.0, i.z) * evaluateSurface(at.optics, i, at.point.at.o, at.sharp ? DIFFUSE : ALL);
}
`,
};
