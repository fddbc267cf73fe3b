import { HUES } from '../../core/monochrome/hue-curve.ts';
import type { Chunk } from './chunk.ts';
import { circle } from './circle.ts';
import { glslFloat } from './glsl-number.ts';
import { linearRgb } from './linear-rgb.ts';

const PLACES_deg = Object.values(HUES);

/** k(h) between one hue and the next, each a branch of its own, so that no array is indexed. */
const branches = PLACES_deg.map((start, i) => {
  const next = (i + 1) % PLACES_deg.length;
  const end = next === 0 ? 360 : PLACES_deg[next]!;
  const stops = (hue: number) => `${hue < 4 ? 'first' : 'last'}.${'xyzw'[hue % 4]}`;
  const lift = `liftBetween(${stops(i)}, ${stops(next)}, (hue_deg - ${glslFloat(start)}) / ${glslFloat(end - start)})`;
  return next === 0 ? `  return ${lift};` : `  if (hue_deg < ${glslFloat(end)}) return ${lift};`;
}).join('\n');

/** Grey by hue; the curve stands in the core's module. Stops of the eight hues in the order of HUES, four and four. */
export const hueCurve: Chunk = {
  name: 'hue-curve',
  needs: [circle, linearRgb],
  code: /* glsl */ `
float liftBetween(float from, float to, float part) {
  return mix(from, to, (1.0 - unitCircle(part / 2.0).x) / 2.0);
}

float liftAt(vec4 first, vec4 last, float hue_deg) {
${branches}
}

// Hue in degrees and purity, 0 and 0 for a colour of no light.
vec2 hueOf(vec3 rgb) {
  float alpha = rgb.r - (rgb.g + rgb.b) / 2.0;
  float beta = ${Math.sqrt(3) / 2} * (rgb.g - rgb.b);
  float most = max(rgb.r, max(rgb.g, rgb.b));
  if (!(most > 0.0) || (alpha == 0.0 && beta == 0.0)) return vec2(0.0);
  float turn = degrees(atan(beta, alpha));
  return vec2(turn < 0.0 ? turn + 360.0 : turn, min(1.0, length(vec2(alpha, beta)) / most));
}

float hueCurve(vec4 first, vec4 last, vec3 rgb) {
  vec2 hue = hueOf(rgb);
  float share = hue.y * hue.y * (3.0 - 2.0 * hue.y);
  return luminanceOfRgb(rgb) * exp2(share * liftAt(first, last, hue.x));
}
`,
};
