import { MIDDLE_GREY } from '../../core/picture/tone-curve.ts';
import type { Chunk } from './chunk.ts';
import { glslFloat } from './glsl-number.ts';

/** The camera's exposure of a point to the light that a display shows for it; the curve stands in the core's module. */
export const toneCurve: Chunk = {
  name: 'tone-curve',
  needs: [],
  code: /* glsl */ `
const float MIDDLE_GREY = ${glslFloat(MIDDLE_GREY)};

// Ends of the camera's range, in stops from its zero.
struct ToneRange {
  float white_stops;
  float floor_stops;
};

// Light of the display, 0 to 1, for an exposure L/L₀; any exposure, infinite too, and negative ones are none.
float toneCurve(ToneRange range, float exposure) {
  if (!(exposure > 0.0)) return 0.0;
  float x = log2(exposure);
  if (x <= range.floor_stops) return 0.0;
  if (x >= range.white_stops) return 1.0;
  float start = range.floor_stops / 2.0;
  float span = start - range.floor_stops;
  if (x < start) return MIDDLE_GREY * exp2(start) * pow((x - range.floor_stops) / span, ${Math.LN2} * span);
  if (x <= 1.0) return MIDDLE_GREY * exposure;
  float W = range.white_stops - 1.0;
  float D = ${glslFloat(Math.log2(1 / MIDDLE_GREY) - 1)};
  return min(1.0, MIDDLE_GREY * exp2(1.0 + D * (1.0 - pow(1.0 - (x - 1.0) / W, W / D))));
}
`,
};
