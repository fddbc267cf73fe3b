import type { Chunk } from './chunk.ts';
import { clearance } from './clearance.ts';
import { connection } from './connection.ts';
import { evaluate } from './evaluate.ts';
import { everyFeature } from './features.ts';
import { lampSight } from './lamp-sight.ts';
import { everyLightKind } from './light-kinds.ts';
import { linearRgb } from './linear-rgb.ts';
import { mirrorConnection } from './mirror-connection.ts';
import { packedPanes } from './packed-panes.ts';
import { packedSurfaces } from './packed-surfaces.ts';
import { paneLobe } from './pane-lobe.ts';
import { surfacePoint } from './surface-point.ts';

/**
 * Lamp light at a point, sent on along the path: all lamps weighed by what they would give with nothing in the way, one
 * kept (resampled importance, Talbot 2005). The point is one of a surface, of a pane that scatters, or a meter.
 */
export const surfaceLamps: Chunk = {
  name: 'surface-lamps',
  needs: [
    everyFeature,
    everyLightKind,
    connection,
    lampSight,
    linearRgb,
    evaluate,
    packedSurfaces,
    packedPanes,
    paneLobe,
    surfacePoint,
    mirrorConnection,
    clearance,
  ],
  code: /* glsl */ `
// Up to this α a reflection is sharp: a camera's path goes on through it as if it looked round a corner.
const float SHARP_MAX_ALPHA = 0.02;

// How the glossy part of a surface answers lamps when a path arrives: as it is, but for lamps that its lobe finds;
// weighed against the mirror connection of the vertex before, blurred where that could not be; blurred.
const int GLOSS_SHARP = 0;
const int GLOSS_THROWN = 1;
const int GLOSS_BLURRED = 2;

bool lobeFindsLamp(float alpha, float lampRadius_m, float distance_m) {
  return alpha < SHARP_MAX_ALPHA && alpha * distance_m < lampRadius_m;
}

const int AT_SURFACE = 0;
const int AT_PANE = 1;
const int AT_METER = 2;
const int AT_NOTHING = 3;

struct LitPoint {
  // AT_SURFACE, AT_PANE, AT_METER or AT_NOTHING.
  int kind;
  // The point's axes; of a pane, n its normal and o the direction, in the world, toward which it scatters.
  SurfacePoint at;
  // Index of the surface or pane, and of the part.
  int substance;
  int part;
  int gloss;
  // Where the vertex before stood and how densely it chose this direction.
  vec3 before;
  float density;
  bool dome;
};

float receptorResponse(bool dome, float cosTheta) {
  return dome ? (1.0 + cosTheta) / 2.0 : max(0.0, cosTheta);
}

// From one lamp's place on its face to the next one's: the sequence of Roberts in two dimensions. Every lamp's place is even
// on its face by itself, which is all that the estimate asks.
const vec2 NEXT_LAMP = vec2(0.7548776662466927, 0.5698402909980532);

// The luminance of the lamp that was kept, standing for all, in linear RGB, and the straight way to it. The numbers: which
// lamp, and the place on its face.
bool lightOfLamps(LitPoint point, vec3 numbers, out int keptLamp, out vec3 light, out LampSight kept) {
  float total = 0.0;
  float choice = numbers.x;
  // Of the kept lamp: its light off the base of the surface and by its gloss, its weight, its place among those alight.
  vec3 keptBase = vec3(0.0);
  vec3 keptGloss = vec3(0.0);
  float keptWeight = 0.0;
  int keptAt = 0;
  SurfaceOptics optics;
  float glossAlpha = 0.0;
  bool thrown = false;
#if HAS_SHEETS
  PaneLobe lobe;
  float scattered = 0.0;
  if (point.kind == AT_PANE) {
    lobe = paneLobeOf(point.substance);
    scattered = paneScattered(point.substance);
  }
#endif
  if (point.kind == AT_SURFACE) {
    optics = surfaceOptics(point.substance);
    glossAlpha = point.gloss == GLOSS_SHARP ? optics.alpha : blurredOptics(point.substance).alpha;
#if HAS_MIRRORS
    bool mirrors = point.gloss != GLOSS_SHARP && mirrorsOf(point.part).count > 0;
    thrown = mirrors && point.gloss == GLOSS_THROWN && optics.glossy;
    // A flat mirror behind a sharp reflection: neither a connection nor chance finds the lamp in it; it is left out.
    if (mirrors && point.gloss == GLOSS_BLURRED && optics.alpha < SHARP_MAX_ALPHA) optics.glossy = false;
#endif
  }
  float onSide = dot(point.at.o, point.at.n);
  int i = 0;
  do {
    int lamp = litLampAt(i).lamp;
    float counts = lampCounts(lamp);
    if (!(counts > 0.0)) continue;
    Emitter emitter = emitterAt(lamp);
    LampSight sight;
    vec2 place = fract(numbers.yz + float(i) * NEXT_LAMP);
    choosePoint(emitter, place.x, place.y, sight);
    seePoint(emitter, point.at.p, sight);
    vec3 base = vec3(0.0);
    vec3 gloss = vec3(0.0);
    float iz = dot(sight.w, point.at.n);
    if (sight.normal_lx > 0.0) {
      if (point.kind == AT_METER) {
        base = lampRgb(lamp) * (sight.normal_lx * receptorResponse(point.dome, iz));
#if HAS_SHEETS
      } else if (point.kind == AT_PANE) {
        // Light passes through: lamp and receiver on opposite sides.
        if (iz * onSide < 0.0) {
          float cosIn = abs(iz);
          base = lampRgb(lamp) * (scattered * sight.normal_lx * cosIn *
            lobeTransmission(lobe, cosIn, abs(onSide), -dot(sight.w, point.at.o)));
        }
#endif
      } else if (iz > 0.0) {
        float arriving = sight.normal_lx * iz;
        base = lampOnSurface(lamp, point.substance) * (baseShare(optics, iz, point.at.o.z) / PI * arriving);
        if (optics.glossy && !(point.gloss == GLOSS_SHARP && lobeFindsLamp(optics.alpha, faceRadius_m(emitter.face), sight.d_m))) {
          SurfaceOptics as = optics;
          as.alpha = glossAlpha;
          gloss = lampRgb(lamp) * glossyReflection(as, inAxesOf(point.at, sight.w), point.at.o) * arriving;
        }
      }
    }
    vec3 value = base + gloss;
    // Light of a saturated gel may lie outside the RGB gamut; what counts for choosing is how much there is.
    float weight = counts * (abs(luminanceOfRgb(value)) + 1e-3 * (abs(value.r) + abs(value.g) + abs(value.b)));
    if (keeps(weight, total, choice)) {
      keptBase = base;
      keptGloss = gloss;
      keptWeight = weight;
      kept = sight;
      keptLamp = lamp;
      keptAt = i;
    }
  } while (++i < litLampsAt.x);
  if (keptWeight == 0.0) return false;
#if HAS_MIRRORS
  // What the vertex before could have found by itself is asked for the kept lamp only: lamps were weighed as if it could not.
  if (thrown) {
    float other = mirrorConnectionDensity(point.part, keptAt, point.before, point.at.p, kept.s);
    if (other > 0.0) {
      float arriving = kept.normal_lx * dot(kept.w, point.at.n);
      keptGloss = lampRgb(keptLamp) * glossyReflection(optics, inAxesOf(point.at, kept.w), point.at.o) *
        (arriving * point.density / (point.density + other));
    }
  }
#endif
  light = (keptBase + keptGloss) * (total / keptWeight);
  return true;
}
`,
};
