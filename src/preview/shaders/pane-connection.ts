import type { Chunk } from './chunk.ts';
import { clearance } from './clearance.ts';
import { connection } from './connection.ts';
import { everyFeature } from './features.ts';
import { packedHaze } from './packed-haze.ts';
import { transportTables } from './transport-tables.ts';

/** Panes that scatter, as sources: a sheet chosen by the solid angle that it may fill. */
export const paneConnection: Chunk = {
  name: 'pane-connection',
  needs: [everyFeature, transportTables, connection, packedHaze, clearance],
  code: /* glsl */ `
// Roughly the solid angle of a sheet from x.
float sheetWeight(PaneSheet sheet, vec3 x) {
  vec3 d = sheet.centre - x;
  return sheet.area_m2 / (dot(d, d) + sheet.area_m2);
}

// Chooses a sheet from x; its place in the list, and the chance of the choice.
int chooseSheet(vec3 x, float u, out float chance) {
  float total = 0.0;
  float kept = 0.0;
  float choice = u;
  int chosen = -1;
  int i = 0;
  do {
    float weight = sheetWeight(paneSheetAt(i), x);
    if (keeps(weight, total, choice)) {
      chosen = i;
      kept = weight;
    }
  } while (++i < paneSheetsAt.x);
  chance = kept / total;
  return chosen;
}

// Chooses a point q of a sheet that shines toward x: the way to it, and how densely it was chosen. The numbers: which
// sheet, and where on it.
bool choosePanePoint(vec3 x, vec3 n, int arrival, vec3 numbers, out PaneSheet sheet, out vec3 q, inout Connection found) {
  float chance;
  int chosen = chooseSheet(x, numbers.x, chance);
  if (chosen < 0) return false;
  vec2 at = 2.0 * numbers.yz - 1.0;
  sheet = paneSheetAt(chosen);
  q = sheet.centre + at.x * sheet.halfSize.x * sheet.u + at.y * sheet.halfSize.y * sheet.v;
  float d = distance(q, x);
  if (d < 1e-5) return false;
  vec3 w = (q - x) / d;
  if (arrival == ARRIVAL_SURFACE && dot(w, n) <= 0.0) return false;
  float cosOut = abs(dot(w, sheet.n));
  if (cosOut < 1e-6) return false;
  found.w = w;
  found.value = vec3(1.0);
#if HAS_HAZE
  found.value *= hazeTransmittance(x, w, d);
#endif
  found.own = chance * d * d / (sheet.area_m2 * cosOut);
  return true;
}

// Density, per steradian at x, with which a connection finds a point of this part at distance d under this cosine.
float paneConnectionDensity(vec3 x, int part, float d, float cosOut) {
  float total = 0.0;
  float own = 0.0;
  float area = 1.0;
  for (int i = 0; i < paneSheetsAt.x; i++) {
    PaneSheet sheet = paneSheetAt(i);
    float weight = sheetWeight(sheet, x);
    total += weight;
    if (sheet.part == part) {
      own = weight;
      area = sheet.area_m2;
    }
  }
  return own > 0.0 ? own / total * d * d / (area * cosOut) : 0.0;
}
`,
};
