import type { Chunk } from './chunk.ts';
import { connection } from './connection.ts';
import { transportTables } from './transport-tables.ts';

/** Panes that scatter, as sources: a sheet chosen by the solid angle that it may fill. */
export const paneConnection: Chunk = {
  name: 'pane-connection',
  needs: [transportTables, connection],
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
  for (int i = 0; i < paneSheetsAt.x; i++) {
    float weight = sheetWeight(paneSheetAt(i), x);
    if (keeps(weight, total, choice)) {
      chosen = i;
      kept = weight;
    }
  }
  chance = kept / total;
  return chosen;
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
