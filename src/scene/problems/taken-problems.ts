import { distance } from '../../core/math/vec3.ts';
import { lampAsTaken } from '../readings/as-taken.ts';
import type { SceneDocument } from '../schema/document.ts';
import { nearestName } from './nearest-name.ts';
import { type Problem, problemAt, shown } from './problem.ts';

/** What readings remember of lamps that they were not taken with, twice of one lamp, or that no lamp can do. */
export function takenProblems(document: SceneDocument): Problem[] {
  const lamps = new Map(document.lamps?.map((lamp) => [lamp.id, lamp]));
  return (document.readings ?? []).flatMap((reading, r) =>
    (reading.taken ?? []).flatMap((entry, t, taken): Problem[] => {
      const at = ['readings', r, 'taken', t];
      if (!reading.lamps.includes(entry.lamp)) {
        const nearest = nearestName(entry.lamp, reading.lamps);
        const expected = 'a lamp that the reading was taken with, one of its "lamps"';
        return [problemAt(document, [...at, 'lamp'], { found: shown(entry.lamp), expected, nearest })];
      }
      if (taken.findIndex(({ lamp }) => lamp === entry.lamp) < t) {
        const expected = 'each lamp once';
        return [problemAt(document, [...at, 'lamp'], { found: `${shown(entry.lamp)} again`, expected })];
      }
      const { position_m, aim_m } = lampAsTaken(lamps.get(entry.lamp)!, entry);
      if (distance(position_m, aim_m) > 1e-6) return [];
      const field = entry.aim_m ? 'aim_m' : 'position_m';
      const found = `${shown(entry[field])}, where the lamp then stood and was aimed at`;
      return [
        problemAt(document, [...at, field], { found, expected: 'an aim point away from the lamp itself' }),
      ];
    }),
  );
}
