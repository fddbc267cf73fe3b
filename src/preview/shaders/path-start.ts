import type { Chunk } from './chunk.ts';
import { clearance } from './clearance.ts';
import { face } from './face.ts';
import { pathState } from './path-state.ts';
import { random } from './random.ts';
import { viewOfCamera } from './view-of-camera.ts';

/** Where the paths of a camera begin: somewhere in the pixel and in the pupil. */
export const startOfCamera: Chunk = {
  name: 'start-of-camera',
  needs: [pathState, viewOfCamera, random, face],
  code: /* glsl */ `
PathState pathFrom(ivec2 pixel, inout RandomState random) {
  vec4 numbers = nextFour(random);
  vec3 o;
  vec3 d;
  rayOfCamera(numbers.xy, placeOnFace(Face(DISC, vec2(1.0)), numbers.z, numbers.w), o, d);
  return pathOfCamera(o, d);
}
`,
};

/** Where those of meters begin. Pixels are meters, two texels each in `meters`: place and 1 for a dome; where it points. */
export const startOfMeters: Chunk = {
  name: 'start-of-meters',
  needs: [pathState, random, clearance],
  code: /* glsl */ `
uniform sampler2D meters;

PathState pathFrom(ivec2 pixel, inout RandomState random) {
  vec4 place = texelFetch(meters, ivec2(2 * pixel.x, pixel.y), 0);
  vec3 facing = texelFetch(meters, ivec2(2 * pixel.x + 1, pixel.y), 0).xyz;
  return pathOfMeter(liftedOff(place.xyz, facing), facing, place.w > 0.5);
}
`,
};
