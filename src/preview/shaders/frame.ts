import type { Chunk } from './chunk.ts';
import { face } from './face.ts';
import { type Features, featuresChunk } from './features.ts';
import { linearRgb } from './linear-rgb.ts';
import { path } from './path.ts';
import { random } from './random.ts';
import { thinLens } from './thin-lens.ts';

const accumulate = (start: string, trace: string): string => /* glsl */ `
// What all samples before have given.
uniform sampler2D sumsBefore;
uniform sampler2D replicatesBefore;
uniform ivec2 frameSize;
uniform uint seed;
// Samples so far, over all replicates.
uniform uint samplesBefore;

// Linear RGB, and how many samples it is the sum of.
layout(location = 0) out vec4 sums;
// Luminance by replicate.
layout(location = 1) out vec4 replicates;

const uint REPLICATES = 4u;

void main() {
  ivec2 pixel = ivec2(gl_FragCoord.xy);
  sums = vec4(0.0);
  replicates = vec4(0.0);
  if (samplesBefore > 0u) {
    sums = texelFetch(sumsBefore, pixel, 0);
    replicates = texelFetch(replicatesBefore, pixel, 0);
  }
  uint replicate = samplesBefore % REPLICATES;
  uint key = mixed32(mixed32(seed) + uint(pixel.y * frameSize.x + pixel.x));
  RandomState random = pathRandom(key + 0x632be59bu * replicate, samplesBefore / REPLICATES);
${start}
  vec3 light = ${trace};
  // A number that single precision could not hold would spoil the pixel for good: the sample is left out of the count.
  if (!(dot(abs(light), vec3(1.0)) < 1e30)) return;
  sums += vec4(light, 1.0);
  float Y = luminanceOfRgb(light);
  replicates += Y * vec4(equal(uvec4(replicate), uvec4(0u, 1u, 2u, 3u)));
}
`;

/** One more sample of every pixel of a camera's frame; the rows of the target run downward in the picture. */
export const frame = (features: Features): Chunk => ({
  name: 'frame',
  needs: [featuresChunk(features), path, thinLens, random, face, linearRgb],
  code: `
uniform vec3 lensPosition;
uniform vec3 lensForward;
uniform vec3 lensRight;
uniform vec3 lensUp;
// Half the picture's width and height at unit distance, radius of the pupil, distance in focus.
uniform vec4 lensNumbers;
${accumulate(
  /* glsl */ `
  float across = nextRandom(random);
  float down = nextRandom(random);
  float pupilU = nextRandom(random);
  float pupilV = nextRandom(random);
  vec2 place = (vec2(pixel) + vec2(across, down)) / vec2(frameSize);
  vec2 pupil = placeOnFace(Face(DISC, vec2(1.0)), pupilU, pupilV);
  ThinLens lens = ThinLens(lensPosition, lensForward, lensRight, lensUp, lensNumbers.x, lensNumbers.y, lensNumbers.z, lensNumbers.w);
  vec3 o;
  vec3 d;
  aimThrough(lens, place.x, place.y, pupil.x, pupil.y, o, d);`,
  'tracePath(o, d, false, false, random)',
)}`,
});

/** One more sample of every meter: pixels are meters, two texels each in `meters`: place and 1 for a dome; where it points. */
export const meterFrame = (features: Features): Chunk => ({
  name: 'meter-frame',
  needs: [featuresChunk(features), path, random, linearRgb],
  code: `
uniform sampler2D meters;
${accumulate(
  /* glsl */ `
  vec4 place = texelFetch(meters, ivec2(2 * pixel.x, pixel.y), 0);
  vec3 facing = texelFetch(meters, ivec2(2 * pixel.x + 1, pixel.y), 0).xyz;`,
  'tracePath(liftedOff(place.xyz, facing), facing, true, place.w > 0.5, random)',
)}`,
});
