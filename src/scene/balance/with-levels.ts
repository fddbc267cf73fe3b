import { rememberLamps } from '../readings/remember-lamps.ts';
import type { SceneDocument } from '../schema/document.ts';
import type { Lamp } from '../schema/lamp.ts';
import { sceneInSetup } from '../setups/scene-in-setup.ts';
import type { LevelReport } from './balance-scene.ts';

/** A single net or scrim is half a stop, a double one a stop: entries of the library. */
const SINGLE = 'scrim-single';
const DOUBLE = 'scrim-double';

/**
 * The document with the levels that were found, in the base or as changes of the setup they were found in; scrims before
 * heads that dim no further. Readings remember the levels that they were taken at. Nothing else is changed, and the given
 * document is not.
 */
export function withLevels(
  document: SceneDocument,
  setup: string | undefined,
  levels: readonly LevelReport[],
): SceneDocument {
  const changed = levels.filter((lamp) => lamp.level !== lamp.level_now);
  const shown = sceneInSetup(document, setup).lamps ?? [];
  const patches = changed.map(({ id, dimmer, nets_stops }) => {
    const before = shown.find((lamp) => lamp.id === id)!.filters ?? [];
    const filters = nets_stops > 0 ? { filters: [...before, ...scrims(nets_stops)] } : {};
    return [id, { level: rounded(dimmer), ...filters }] as const;
  });
  const patchOf = new Map<string, Partial<Lamp>>(patches);
  if (setup === undefined) {
    const lamps = (document.lamps ?? []).map((lamp) => ({ ...lamp, ...patchOf.get(lamp.id) }));
    return rememberLamps(document, { ...document, lamps });
  }
  const setups = document.setups!.map((entry) =>
    entry.id === setup
      ? {
          ...entry,
          changes: {
            ...entry.changes,
            ...Object.fromEntries(patches.map(([id, patch]) => [id, { ...entry.changes[id], ...patch }])),
          },
        }
      : entry,
  );
  return { ...document, setups };
}

function scrims(stops: number): string[] {
  const doubles = Math.floor(stops);
  return [...new Array<string>(doubles).fill(DOUBLE), ...(stops > doubles ? [SINGLE] : [])];
}

/** Finer than any dimmer, coarse enough to read. */
function rounded(level: number): number {
  return Math.round(level * 1e4) / 1e4;
}
