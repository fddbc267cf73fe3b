import type { Chunk } from './chunk.ts';
import { develop } from './develop.ts';
import { srgbTransfer } from './srgb-transfer.ts';

/** The frame so far as the camera's exposure makes it, over the whole canvas whatever its size. */
export const show: Chunk = {
  name: 'show',
  needs: [develop, srgbTransfer],
  code: /* glsl */ `
uniform sampler2D sums;
uniform ivec2 frameSize;
uniform vec2 canvasSize;
// Luminance that the camera's exposure puts at middle grey.
uniform float zero_cd_m2;
// Rows of the white balance.
uniform vec3 balanceRed;
uniform vec3 balanceGreen;
uniform vec3 balanceBlue;
// Stops of white and of the floor.
uniform vec2 toneStops;

layout(location = 0) out vec4 shown;

void main() {
  vec2 place = vec2(gl_FragCoord.x, canvasSize.y - gl_FragCoord.y) / canvasSize;
  vec4 sum = texelFetch(sums, min(ivec2(place * vec2(frameSize)), frameSize - 1), 0);
  vec3 rgb = sum.rgb / (max(1.0, sum.a) * zero_cd_m2);
  mat3 balance = transpose(mat3(balanceRed, balanceGreen, balanceBlue));
  shown = vec4(srgbEncoded(displayColour(balance, ToneRange(toneStops.x, toneStops.y), rgb)), 1.0);
}
`,
};
