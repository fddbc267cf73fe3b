import type { LevelReport } from '../../scene/balance/balance-scene.ts';
import { withLevels } from '../../scene/balance/with-levels.ts';
import type { Command } from '../../scene/commands/command.ts';
import type { SceneDocument } from '../../scene/schema/document.ts';

/** The edits that bring a scene, as its setup has it, to the levels that were found; scrims for heads that dim no further. */
export function levelCommands(shown: SceneDocument, levels: readonly LevelReport[]): Command[] {
  const wanted = withLevels(shown, undefined, levels).lamps ?? [];
  return levels
    .filter(({ level, level_now }) => level !== level_now)
    .map(({ id }) => {
      const before = shown.lamps?.find((lamp) => lamp.id === id)?.filters;
      const { level, filters } = wanted.find((lamp) => lamp.id === id)!;
      return { do: 'change', id, patch: filters === before ? { level } : { level, filters } };
    });
}
