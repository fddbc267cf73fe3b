import type { Chunk } from './chunk.ts';
import { everyLightKind } from './light-kinds.ts';
import { rayQuery } from './ray-query.ts';

/**
 * The straight ways that the light of a vertex takes. They are put down as connections are made and traced together in one
 * loop: with one call of the shadow ray, and neighbours all at their rays at the same time.
 */
export const straightWays: Chunk = {
  name: 'straight-ways',
  needs: [everyLightKind, rayQuery],
  code: /* glsl */ `
// How connections of a vertex are told apart.
const int BY_MIRROR = 0;
const int BY_PANE = 1;
const int BY_GLOW = 2;
const int BY_LAMPS = 3;
const int BY_AIRLIGHT = 4;
const int CONNECTIONS = 5;

// What is asked of a way: how much light passes; whether nothing at all is in it; whether something solid is.
const int LIGHT_PASSES = 0;
const int NOTHING_THERE = 1;
const int SOLID_THERE = 2;

// Three of a mirror, two each of a pane and of glow, one each of lamps and airlight. A card keeps them at hand all the while.
#if ASKS_ONE_KIND
const int MOST_WAYS = ASKS_MIRRORED == 1 ? 3 : 2;
#else
const int MOST_WAYS = 9;
#endif
int wayCount;
// The end of a way; with the connection that it belongs to, and with what is asked.
vec4 wayFrom[MOST_WAYS];
vec4 wayTo[MOST_WAYS];
// What share of its light comes through, by connection.
float passed[CONNECTIONS];

void addWay(int connection, int asked, vec3 from, vec3 to) {
  wayFrom[wayCount] = vec4(from, float(connection));
  wayTo[wayCount] = vec4(to, float(asked));
  wayCount++;
}

void traceWays() {
  int at = 0;
  if (wayCount > 0) do {
    int connection = int(wayFrom[at].w);
    int asked = int(wayTo[at].w);
    vec3 from = wayFrom[at].xyz;
    vec3 way = wayTo[at].xyz - from;
    float reach = length(way);
    float through = transmittance(from, way / reach, 0.0, reach, asked == NOTHING_THERE);
    passed[connection] *= asked == SOLID_THERE ? (through == 0.0 ? 1.0 : 0.0) : through;
    // On to the next way of a connection that is not yet known to be nothing.
    do {
      at++;
    } while (at < wayCount && passed[int(wayFrom[at].w)] == 0.0);
  } while (at < wayCount);
}
`,
};
