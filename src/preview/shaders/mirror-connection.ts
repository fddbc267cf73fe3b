import type { Chunk } from './chunk.ts';
import { circle } from './circle.ts';
import { clearance } from './clearance.ts';
import { connection } from './connection.ts';
import { evaluate } from './evaluate.ts';
import { everyFeature } from './features.ts';
import { lampSight } from './lamp-sight.ts';
import { packedSurfaces } from './packed-surfaces.ts';
import { straightWays } from './straight-ways.ts';
import { transportTables } from './transport-tables.ts';
import { unfolding } from './unfolding.ts';

/** Light that a flat glossy face throws at a point x; the integral and its weighing stand in the core's module. */
export const mirrorConnection: Chunk = {
  name: 'mirror-connection',
  needs: [
    everyFeature,
    connection,
    straightWays,
    transportTables,
    packedSurfaces,
    unfolding,
    lampSight,
    evaluate,
    circle,
    clearance,
  ],
  code: /* glsl */ `
// Beyond so many lobe widths a face gets less than a thousandth of the light.
const float WIDTHS = 30.0;
// How far off the face its own presence is probed.
const float PROBE_m = 5e-4;
// However little a pair seems to give, it is looked at now and then: the lamp's rim may shine where its centre does not.
const float LEAST_PROMISE = 1e-3;

struct MirrorImage {
  float share;
  float whole;
  float cosine;
  vec2 q;
};

// Whether the image of a pair's lamp, as wide as the lobe makes it, may show in the face from x in the face's own axes.
bool imageShows(MirrorFace face, MirrorPair pair, vec3 x, out MirrorImage image) {
  float side = x.z > 0.0 ? 1.0 : -1.0;
  float heightX = side * x.z;
  float heightS = side * pair.lampAt.z;
  if ((side < 0.0 && face.oneSided) || heightX < 1e-6 || heightS < 1e-6) return false;
  float heights = heightX + heightS;
  float share = heightX / heights;
  vec2 t = pair.lampAt.xy - x.xy;
  vec2 q = x.xy + share * t;
  float whole = sqrt(dot(t, t) + heights * heights);
  float cosine = heights / whole;
  float width = 2.0 * face.alpha * share * (1.0 - share) * whole;
  float margin = (WIDTHS * width + pair.lampRadius_m) / cosine;
  if (abs(q.x) > face.halfSize.x + margin || abs(q.y) > face.halfSize.y + margin) return false;
  image = MirrorImage(share, whole, cosine, q);
  return true;
}

// Density, per steradian at x, with which connectMirror would draw the way x → q → s, the choice of lamp and face apart.
float mirrorConnectionDensity(int part, int lit, vec3 x, vec3 q, vec3 s) {
  PairRange pairs = mirrorsOf(part);
  for (int i = pairs.first; i < pairs.first + pairs.count; i++) {
    MirrorPair pair = mirrorPairAt(i);
    if (pair.lit != lit) continue;
    MirrorFace face = mirrorFaceAt(pair.face);
    vec3 qf = inAxesOfFace(face, q);
    if (abs(qf.z) > 5e-4) continue;
    vec3 xf = inAxesOfFace(face, x);
    MirrorImage image;
    Unfolding at;
    if (!imageShows(face, pair, xf, image) || !unfold(face, xf, inAxesOfFace(face, s), at)) return 0.0;
    vec3 d = q - x;
    float d2 = dot(d, d);
    float cosOut = abs(dot(d, face.n)) / sqrt(d2);
    return unfoldedDensity(at, face.alpha, qf.xy) * d2 / max(cosOut, 1e-6);
  }
  return 0.0;
}

float reflectanceAt(MirrorFace face, float cosine) {
  if (face.coatIor > 0.0) return dielectricReflectance(cosine, face.coatIor);
  return conductorReflectance(cosine, face.metalNK.x, face.metalNK.y);
}

// One estimate of all lamp light thrown by flat glossy faces at x; its ways, of the connection that bears this name, are
// still to be traced: the face's own presence, from x to the face, and on to the lamp. False when it is nothing. The numbers:
// the place on the lamp, and the radius and turn of a slope of the face.
bool connectMirror(vec3 x, vec3 n, int arrival, float choice, vec4 numbers, int name, inout Connection found) {
  int count = mirrorPairsAt.x;
  float total = 0.0;
  float chosenWeight = 0.0;
  int chosen = -1;
  int i = 0;
  // Pairs of one face follow one another: it is read once for all its lamps.
  int faceRead = -1;
  MirrorFace face;
  vec3 xf;
  do {
    MirrorPair pair = mirrorPairAt(i);
    MirrorImage image;
    if (pair.face != faceRead) {
      faceRead = pair.face;
      face = mirrorFaceAt(faceRead);
      xf = inAxesOfFace(face, x);
    }
    float counts = lampCounts(pair.lamp);
    // Most faces show nothing of most lamps.
    if (counts > 0.0 && !imageShows(face, pair, xf, image)) counts = 0.0;
    if (counts > 0.0) {
      Emitter emitter = emitterAt(pair.lamp);
      vec3 q = face.centre + image.q.x * face.u + image.q.y * face.v;
      float d1 = max(1e-6, (1.0 - image.share) * image.whole);
      float I = emitted_cd(emitter, (q - emitter.origin) / d1);
      float d2 = max(1e-6, image.share * image.whole);
      float shine = counts * (I + LEAST_PROMISE * emitter.gain * pair.peak_cd) * reflectanceAt(face, image.cosine);
      float weight = shine * max(LEAST_PROMISE, arrivalWeight(arrival, dot(q - x, n) / d2)) / (image.whole * image.whole);
      if (keeps(weight, total, choice)) {
        chosen = i;
        chosenWeight = weight;
      }
    }
  } while (++i < count);
  if (chosen < 0) return false;
  MirrorPair pair = mirrorPairAt(chosen);
  face = mirrorFaceAt(pair.face);
  int lamp = pair.lamp;
  Emitter emitter = emitterAt(lamp);

  // Radius of a GGX slope.
  float slope = face.alpha * sqrt(numbers.z / (1.0 - numbers.z));
  vec2 turn = unitCircle(numbers.w);
  LampSight sight;
  choosePoint(emitter, numbers.x, numbers.y, sight);
  Unfolding at;
  if (!unfold(face, inAxesOfFace(face, x), inAxesOfFace(face, sight.s), at)) return false;
  float reach = 2.0 * slope / at.curve;
  float along = reach * turn.x / at.cosine;
  float across = reach * turn.y * at.cosine;
  vec2 qf = at.q + along * at.e + across * vec2(-at.e.y, at.e.x);
  if (abs(qf.x) > face.halfSize.x || abs(qf.y) > face.halfSize.y) return false;

  vec3 m = at.side * face.n;
  vec3 q = face.centre + qf.x * face.u + qf.y * face.v;
  vec3 d = q - x;
  float d2 = length(d);
  vec3 w = d / d2;
  if (arrival == ARRIVAL_SURFACE && dot(w, n) <= 0.0) return false;
  seePoint(emitter, q, sight);
  float cosIn = dot(sight.w, m);
  float cosOut = -dot(w, m);
  if (cosIn <= 0.0 || cosOut <= 0.0 || sight.normal_lx == 0.0) return false;
  vec3 glossy = glossyReflection(
    surfaceOptics(face.surface),
    vec3(dot(sight.w, face.u), dot(sight.w, face.v), cosIn),
    vec3(-dot(w, face.u), -dot(w, face.v), cosOut)
  );
  float perDirection = unfoldedDensity(at, face.alpha, qf) * d2 * d2 / cosOut;
  found.w = w;
  found.lamp = lamp;
  found.value = glossy * lampRgb(lamp) * (sight.normal_lx * cosIn * total / chosenWeight);
#if HAS_HAZE
  found.value *= hazeTransmittance(x, w, d2);
#endif
  found.own = perDirection;
  vec3 lifted = liftedOff(q, m);
  addWay(name, SOLID_THERE, q + PROBE_m * m, q - PROBE_m * m);
  addWay(name, LIGHT_PASSES, x, lifted);
  addWay(name, LIGHT_PASSES, lifted, sight.s + clearance_m(sight.d_m) * normalize(lifted - sight.s));
  return true;
}
`,
};
