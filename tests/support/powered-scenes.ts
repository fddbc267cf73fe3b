import { openRaw } from '../../src/scene/file/open-scene.ts';
import { problemText } from '../../src/scene/problems/problem.ts';
import type { SceneDocument } from '../../src/scene/schema/document.ts';

/** Heads for power and rigging tests: figures of a nameplate, light that does not matter. */
export const HEADS = {
  discharge: headOf({ kind: 'discharge', input_W: 2070, powerFactor: 0.98 }),
  raw: headOf({ kind: 'discharge', input_W: 2070, powerFactor: 0.6 }),
  led: headOf({ kind: 'led', input_W: 165, powerFactor: 0.95 }),
  small: headOf({ kind: 'led', input_W: 66, powerFactor: 0.95 }),
};

export function headOf(electrical: object | undefined, more: object = {}): object {
  return {
    photometry: { kind: 'beam', peak_cd: 20_000, beam_deg: 50, field_deg: 80 },
    face: { shape: 'disc', diameter_m: 0.3 },
    spectrum: { kind: 'daylight', cct_K: 5600 },
    ...(electrical ? { electrical } : {}),
    ...more,
  };
}

/** Lamps side by side; each given as its head and whatever else it has. */
export function poweredScene(
  lamps: readonly (readonly [id: string, head: string, more?: object])[],
  supplies: readonly object[],
  more: object = {},
): SceneDocument {
  const { document, problems } = openRaw({
    keyfall: 1,
    title: 'Powered',
    heads: HEADS,
    lamps: lamps.map(([id, head, rest], i) => ({
      id,
      head,
      position_m: [i, 2, 0],
      aim_m: [i, 1, 5],
      ...rest,
    })),
    supplies,
    ...more,
  });
  if (!document) throw new Error(problems.map((problem) => problemText(problem)).join('\n'));
  return document;
}
