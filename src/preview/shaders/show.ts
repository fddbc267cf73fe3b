import { channelMix } from './channel-mix.ts';
import type { Chunk } from './chunk.ts';
import { develop } from './develop.ts';
import { falseColour } from './false-colour.ts';
import { hueCurve } from './hue-curve.ts';
import { srgbTransfer } from './srgb-transfer.ts';

/** What `show` makes of the light: renderer/showing.ts names them. */
export const LOOKS = ['picture', 'weights', 'hues', 'stops', 'normals', 'things'] as const;

/** The frame so far as the camera's exposure makes it, over the whole canvas whatever its size. */
export const show: Chunk = {
  name: 'show',
  needs: [develop, srgbTransfer, falseColour, channelMix, hueCurve],
  code: /* glsl */ `
uniform sampler2D light;
uniform sampler2D normalAndPart;
uniform sampler2D owner;
uniform ivec2 frameSize;
uniform vec2 canvasSize;
uniform int look;
// Luminance that the camera's exposure puts at middle grey.
uniform float zero_cd_m2;
// Rows of the white balance.
uniform vec3 balanceRed;
uniform vec3 balanceGreen;
uniform vec3 balanceBlue;
// Stops of white and of the floor.
uniform vec2 toneStops;
// Of the grey that a monochrome picture is made of: weights, or stops of the eight hues.
uniform vec3 greyWeights;
uniform vec4 hueStopsFirst;
uniform vec4 hueStopsLast;
// Whether what is clipped and what is lost in noise is marked, and how many canvas pixels a mark is wide.
uniform bool marksEnds;
uniform float mark_px;

layout(location = 0) out vec4 shown;

${LOOKS.map((name, i) => `const int LOOK_${name.toUpperCase()} = ${i};`).join('\n')}

vec3 greyOf(ToneRange range, float exposure) {
  return vec3(srgbEncoded(toneCurve(range, exposure)));
}

// Colours that neighbours in the list do not share.
vec3 colourOfThing(float place) {
  if (place < 0.0) return vec3(0.0);
  float turn = fract(place * 0.61803399);
  return 0.55 + 0.4 * cos(6.2831853 * (turn + vec3(0.0, 1.0, 2.0) / 3.0));
}

vec3 lightAt(ivec2 pixel) {
  return texelFetch(light, clamp(pixel, ivec2(0), frameSize - 1), 0).rgb;
}

// Between pixels where the canvas has more of them than the frame; a frame as large as its canvas is shown as it is.
vec3 lightBetween(vec2 place) {
  if (vec2(frameSize) == canvasSize) return lightAt(ivec2(place));
  vec2 corner = floor(place - 0.5);
  vec2 along = place - 0.5 - corner;
  ivec2 pixel = ivec2(corner);
  vec3 upper = mix(lightAt(pixel), lightAt(pixel + ivec2(1, 0)), along.x);
  vec3 lower = mix(lightAt(pixel + ivec2(0, 1)), lightAt(pixel + ivec2(1, 1)), along.x);
  return mix(upper, lower, along.y);
}

void main() {
  vec2 at = vec2(gl_FragCoord.x, canvasSize.y - gl_FragCoord.y);
  vec2 place = at / canvasSize * vec2(frameSize);
  ivec2 pixel = min(ivec2(place), frameSize - 1);
  vec3 rgb = lightBetween(place) / zero_cd_m2;
  mat3 balance = transpose(mat3(balanceRed, balanceGreen, balanceBlue));
  ToneRange range = ToneRange(toneStops.x, toneStops.y);
  vec3 colour;
  if (look == LOOK_PICTURE) colour = srgbEncoded(displayColour(balance, range, rgb));
  else if (look == LOOK_WEIGHTS) colour = greyOf(range, channelMix(greyWeights, balance * rgb));
  else if (look == LOOK_HUES) colour = greyOf(range, hueCurve(hueStopsFirst, hueStopsLast, balance * rgb));
  else if (look == LOOK_STOPS) colour = falseColour(rgb);
  else if (look == LOOK_NORMALS) colour = 0.5 + 0.5 * texelFetch(normalAndPart, pixel, 0).xyz;
  else colour = colourOfThing(texelFetch(owner, pixel, 0).r);
  if (marksEnds && look <= LOOK_HUES) {
    float stops = log2(max(1e-30, luminanceOfRgb(rgb)));
    float stripe = mod(floor((at.x + at.y) / mark_px), 2.0);
    // Clipped: stripes leaning one way, dark and light. Lost in noise: sparse dots, so that neither needs colour to be told.
    if (stops >= toneStops.x) colour = stripe < 1.0 ? vec3(0.1) : vec3(1.0, 0.67, 0.25);
    else if (stops <= toneStops.y && mod(floor(at.x / mark_px), 3.0) + mod(floor(at.y / mark_px), 3.0) < 0.5)
      colour = vec3(0.55, 0.4, 0.3);
  }
  shown = vec4(colour, 1.0);
}
`,
};
