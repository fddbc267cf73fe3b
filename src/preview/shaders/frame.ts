import type { Chunk } from './chunk.ts';
import { face } from './face.ts';
import { type Features, featuresChunk } from './features.ts';
import { keptLight } from './kept-light.ts';
import { LIGHT_KINDS, type LightKind, lightKindsChunk } from './light-kinds.ts';
import { linearRgb } from './linear-rgb.ts';
import { path } from './path.ts';
import { random } from './random.ts';
import { turns } from './turns.ts';
import { viewOfCamera } from './view-of-camera.ts';

/** Which light a program asks for, how often, and what of its paths goes on: see renderer/light-parts.ts. */
export interface AskedLight {
  readonly kinds: readonly LightKind[];
  readonly every: number;
  readonly deeperEvery: number;
}

/**
 * `named` and `width` tell the pixels of a picture apart, whatever part of it is drawn. A program that asks for straight light
 * counts the sample and begins with what all samples before have given; others add to it.
 */
const accumulate = (
  sums: number,
  { kinds, every, deeperEvery }: AskedLight,
  named: string,
  width: string,
  trace: string,
): string => {
  const each = (line: (i: number) => string) => Array.from({ length: sums }, (_, i) => line(i)).join('\n');
  const counts = kinds.includes('straight');
  const thins = every > 1 || deeperEvery > 1;
  const before = (i: number) =>
    counts ? `sumsBegun[${i}] > 0.0 ? texelFetch(sumBefore${i}, pixel, 0) : vec4(0.0)` : 'vec4(0.0)';
  return /* glsl */ `
// What all samples before have given.
${each((i) => `uniform sampler2D sumBefore${i};`)}
uniform sampler2D replicatesBefore;
uniform uint seed;
// Samples so far, over all replicates; those before the replicates were begun anew.
uniform uint samplesBefore;
uniform uint replicatesSince;
// What each sum is multiplied by in the frame, and 1 for those that this sample adds to, and for those that have any.
uniform vec3 sumFactors[SUMS];
uniform float sumsTraced[SUMS];
uniform float sumsBegun[SUMS];

// Linear RGB, and how many samples it is the sum of.
${each((i) => `layout(location = ${i}) out vec4 sum${i};`)}
// Luminance by replicate.
layout(location = ${sums}) out vec4 replicates;

const uint REPLICATES = 4u;

void main() {
  ivec2 pixel = ivec2(gl_FragCoord.xy);
  ivec2 named = ${named};
${each(
  (i) => `  sum${i} = ${before(i)};
  keptLight[${i}] = vec3(0.0);`,
)}
  replicates = vec4(0.0);
${counts ? '  if (samplesBefore > replicatesSince) replicates = texelFetch(replicatesBefore, pixel, 0);' : ''}
  uint replicate = samplesBefore % REPLICATES;
  uint key = mixed32(mixed32(seed + ${startOf(kinds)}u) + uint(named.y * ${width} + named.x));
${
  thins
    ? `  // The first sample of a sum is whole everywhere.
  float stands = 1.0;
  float first = 0.0;
${each((i) => `  first += sumsTraced[${i}] * (1.0 - sumsBegun[${i}]);`)}
  if (first == 0.0) {
    uint block = mixed32(mixed32(seed + ${startOf(kinds)}u) + uint((named.y / BLOCK_px) * ${width} + named.x / BLOCK_px));
    stands = standsFor(block, samplesBefore - 1u, ${every}u);
    standsForDeeper = standsFor(mixed32(block), (samplesBefore - 1u) / ${every}u, ${deeperEvery}u);
  }
  if (stands == 0.0) return;`
    : ''
}
  RandomState random = pathRandom(key + 0x632be59bu * replicate, samplesBefore / REPLICATES);
${trace}
  vec3 light = vec3(0.0);
  float most = 0.0;
${each(
  (i) => `  keptLight[${i}] *= ${thins ? 'stands * ' : ''}sumsTraced[${i}];
  light += sumFactors[${i}] * keptLight[${i}];
  most += dot(abs(keptLight[${i}]), vec3(1.0));`,
)}
  // A number that single precision could not hold would spoil the pixel for good: the sample is left out of the count.
  if (!(most < 1e30)) return;
${each((i) => `  sum${i} += vec4(keptLight[${i}], ${counts ? `sumsTraced[${i}]` : '0.0'});`)}
  float Y = luminanceOfRgb(light);
  replicates += Y * vec4(equal(uvec4(replicate), uvec4(0u, 1u, 2u, 3u)));
}
`;
};

/** Programs of other light take paths of their own, so that their errors do not add up. */
function startOf(kinds: readonly LightKind[]): number {
  return kinds.includes('straight') ? 0 : LIGHT_KINDS.indexOf(kinds[0]!);
}

/** One more sample of every pixel of a camera's frame. */
export const frame = (features: Features, sums: number, asked: AskedLight): Chunk => ({
  name: 'frame',
  needs: [
    featuresChunk(features),
    lightKindsChunk(asked.kinds),
    keptLight(sums),
    path,
    viewOfCamera,
    random,
    turns,
    face,
    linearRgb,
  ],
  code: accumulate(
    sums,
    asked,
    'pixelOfWhole()',
    'wholeSize.x',
    /* glsl */ `
  // Where in the pixel, where in the pupil.
  vec4 numbers = nextFour(random);
  vec3 o;
  vec3 d;
  rayOfCamera(numbers.xy, placeOnFace(Face(DISC, vec2(1.0)), numbers.z, numbers.w), o, d);
  tracePath(o, d, false, false, random);`,
  ),
});

/** One more sample of every meter: pixels are meters, two texels each in `meters`: place and 1 for a dome; where it points. */
export const meterFrame = (features: Features, sums: number, asked: AskedLight): Chunk => ({
  name: 'meter-frame',
  needs: [
    featuresChunk(features),
    lightKindsChunk(asked.kinds),
    keptLight(sums),
    path,
    random,
    turns,
    linearRgb,
  ],
  code: `
uniform sampler2D meters;
${accumulate(
  sums,
  asked,
  'pixel',
  '0',
  /* glsl */ `
  vec4 place = texelFetch(meters, ivec2(2 * pixel.x, pixel.y), 0);
  vec3 facing = texelFetch(meters, ivec2(2 * pixel.x + 1, pixel.y), 0).xyz;
  tracePath(liftedOff(place.xyz, facing), facing, true, place.w > 0.5, random);`,
)}`,
});
