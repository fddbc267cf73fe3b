import type { Chunk } from './chunk.ts';
import { clearance } from './clearance.ts';
import { pathState } from './path-state.ts';
import { rayQuery } from './ray-query.ts';
import { seenLamp } from './seen-lamp.ts';

/** What lies ahead of a path: the nearest thing, and the face of a lamp before it. */
export const pathMeeting: Chunk = {
  name: 'path-meeting',
  needs: [pathState, rayQuery, seenLamp, clearance],
  code: /* glsl */ `
struct Meeting {
  bool solid;
  // As of a hit; t is FAR_m where there is nothing.
  float t;
  vec3 normal;
  int part;
  bool isPane;
  int substance;
  // A lamp whose face is seen, −1 for none, and where.
  int lamp;
  float toLamp;
};

Meeting meetingOf(PathState path) {
  Meeting met = Meeting(false, FAR_m, vec3(0.0), -1, false, -1, -1, FAR_m);
  if (path.atMeter) return met;
  Hit hit;
  if (nearestHit(path.o, path.d, 0.0, FAR_m, hit))
    met = Meeting(true, hit.t, hit.normal, hit.part, hit.isPane, hit.substance, -1, hit.t);
  if (path.reached == REACHED_CAMERA && litLampsAt.x > 0)
    seesLamp(path.o, path.d, path.mirrorAlpha, met.toLamp, met.lamp);
  return met;
}
`,
};
