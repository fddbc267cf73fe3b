import type { Chunk } from './chunk.ts';
import { keptLight } from './kept-light.ts';
import { keptSample } from './kept-sample.ts';

/** The sample is whole: it is added to those before. */
export const waveKeep = (sums: number): Chunk => ({
  name: 'wave-keep',
  needs: [keptLight(sums), keptSample(sums)],
  code: /* glsl */ `
uniform ivec2 tileAt;
${Array.from({ length: sums }, (_, i) => `uniform sampler2D light${i};`).join('\n')}

void main() {
  ivec2 pixel = ivec2(gl_FragCoord.xy);
${Array.from({ length: sums }, (_, i) => `  keptLight[${i}] = texelFetch(light${i}, pixel - tileAt, 0).rgb;`).join('\n')}
  keepSample(pixel);
}
`,
});
