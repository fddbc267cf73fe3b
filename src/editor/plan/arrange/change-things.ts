import type { Command } from '../../../scene/commands/command.ts';
import type { Camera } from '../../../scene/schema/camera.ts';
import type { HazeRegionSettings, SceneDocument } from '../../../scene/schema/document.ts';
import type { Figure } from '../../../scene/schema/figure.ts';
import type { Lamp } from '../../../scene/schema/lamp.ts';
import type { Mark } from '../../../scene/schema/mark.ts';
import type { Path } from '../../../scene/schema/path.ts';
import type { Site } from '../../../scene/schema/site.ts';
import type { Solid } from '../../../scene/schema/solid.ts';
import { hazeBoxId } from './plan-things.ts';

export type KeepOutArea = NonNullable<Site['keepOut']>[number];

/** What becomes of a thing, by its kind: the fields that change. A kind that is left out is left alone. */
export interface ThingPatches {
  readonly lamps?: (lamp: Lamp) => Partial<Lamp>;
  readonly marks?: (mark: Mark) => Partial<Mark>;
  readonly figures?: (figure: Figure) => Partial<Figure>;
  readonly cameras?: (camera: Camera) => Partial<Camera>;
  readonly solids?: (solid: Solid) => object;
  readonly paths?: (path: Path) => Partial<Path>;
  readonly keepOut?: (area: KeepOutArea) => Partial<KeepOutArea>;
  readonly haze?: (region: HazeRegionSettings, id: string) => Partial<HazeRegionSettings>;
}

const LISTED = ['lamps', 'marks', 'figures', 'cameras', 'solids', 'paths'] as const;

/** The commands that change the things with these ids: one for each, and one for each list that is replaced whole. */
export function changeThings(
  document: SceneDocument,
  ids: ReadonlySet<string>,
  patches: ThingPatches,
): readonly Command[] {
  const commands: Command[] = [];
  for (const list of LISTED) {
    const patchOf = patches[list] as ((thing: { id: string }) => object) | undefined;
    const things: readonly { id: string }[] = document[list] ?? [];
    if (!patchOf) continue;
    for (const thing of things)
      if (ids.has(thing.id)) commands.push({ do: 'change', id: thing.id, patch: patchOf(thing) });
  }
  const { keepOut } = document.site ?? {};
  if (patches.keepOut && keepOut?.some(({ id }) => ids.has(id))) {
    const changed = keepOut.map((area) => (ids.has(area.id) ? { ...area, ...patches.keepOut!(area) } : area));
    commands.push({ do: 'change-section', section: 'site', patch: { keepOut: changed } });
  }
  const { regions } = document.haze ?? {};
  if (patches.haze && regions?.some((_, i) => ids.has(hazeBoxId(i)))) {
    const changed = regions.map((region, i) => {
      const id = hazeBoxId(i);
      return ids.has(id) ? { ...region, ...patches.haze!(region, id) } : region;
    });
    commands.push({ do: 'change-section', section: 'haze', patch: { regions: changed } });
  }
  return commands;
}
