import type { Chunk } from './chunk.ts';

/** Display light to what a picture stores, IEC 61966-2-1. */
export const srgbTransfer: Chunk = {
  name: 'srgb-transfer',
  needs: [],
  code: /* glsl */ `
float srgbEncoded(float linear) {
  float L = clamp(linear, 0.0, 1.0);
  return L <= 0.0031308 ? 12.92 * L : 1.055 * pow(L, 1.0 / 2.4) - 0.055;
}

vec3 srgbEncoded(vec3 rgb) {
  return vec3(srgbEncoded(rgb.r), srgbEncoded(rgb.g), srgbEncoded(rgb.b));
}
`,
};
