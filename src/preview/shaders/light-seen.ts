import type { Chunk } from './chunk.ts';
import { packedHaze } from './packed-haze.ts';
import { pathMeeting } from './path-meeting.ts';
import { seenLamp } from './seen-lamp.ts';

/** Light that a path runs into by itself: a lamp's face before a camera, the sky. */
export const lightSeen: Chunk = {
  name: 'light-seen',
  needs: [pathMeeting, seenLamp, packedHaze],
  code: /* glsl */ `
// As far as haze that scatters the path lets it see.
void keepSeen(PathState path, Meeting met, float sees_m) {
  if (met.lamp >= 0 && met.toLamp <= sees_m) keepLight(met.lamp, path.carries * seenRadiance(met.lamp, path.d));
  if (!met.solid && !path.atMeter && sees_m >= FAR_m && path.d.y > 0.0) keepLight(-1, path.carries * skyRadiance);
}
`,
};
