import { add, type Vec3 } from '../../../core/math/vec3.ts';
import type { Command } from '../../../scene/commands/command.ts';
import { LISTS, type ListName, type SceneDocument } from '../../../scene/schema/document.ts';
import { kept } from './place-things.ts';
import { hazeBoxId, type PlanThing } from './plan-things.ts';

/** Copies beside their originals, with ids and names of their own. */
export interface Copies {
  readonly commands: readonly Command[];
  /** Of the copies, in the order of the originals. */
  readonly ids: readonly string[];
}

/**
 * Copies of things as they stand in `document`, put `shift_m` from where they are; what they are aimed at stays. Setups and
 * readings say nothing of the copies.
 */
export function duplicateThings(
  document: SceneDocument,
  things: readonly PlanThing[],
  shift_m: Vec3,
): Copies {
  const takenIds = new Set(namesIn(document, 'id'));
  const takenNames = new Set(namesIn(document, 'name'));
  const shifted = (point_m: Vec3) => kept(add(point_m, shift_m));
  const named = (thing: { id: string; name?: string | undefined }) => ({
    id: nextFree(thing.id, '-', takenIds),
    ...(thing.name === undefined ? {} : { name: nextFree(thing.name, ' ', takenNames) }),
  });
  const commands: Command[] = [];
  const ids: string[] = [];
  const areas = [...(document.site?.keepOut ?? [])];
  const regions = [...(document.haze?.regions ?? [])];
  for (const { id, kind } of things) {
    if (kind === 'haze') {
      const region = document.haze!.regions!.find((_, i) => hazeBoxId(i) === id)!;
      const name = region.name === undefined ? {} : { name: nextFree(region.name, ' ', takenNames) };
      ids.push(hazeBoxId(regions.length));
      regions.push({ ...region, ...name, position_m: shifted(region.position_m) });
    } else if (kind === 'keepOut') {
      const area = document.site!.keepOut!.find((one) => one.id === id)!;
      const copy = named(area);
      const outline_m = area.outline_m.map(([x, z]): [number, number] => {
        const [toX, , toZ] = shifted([x, 0, z]);
        return [toX, toZ];
      });
      ids.push(copy.id);
      areas.push({ ...area, ...copy, outline_m });
    } else {
      const list: readonly { id: string; name?: string | undefined }[] = document[kind]!;
      const original = list.find((one) => one.id === id)!;
      const copy = named(original);
      ids.push(copy.id);
      commands.push({
        do: 'add',
        to: kind,
        thing: { ...original, ...copy, ...movedPoints(original, shifted) },
      });
    }
  }
  if (areas.length > (document.site?.keepOut?.length ?? 0))
    commands.push({ do: 'change-section', section: 'site', patch: { keepOut: areas } });
  if (regions.length > (document.haze?.regions?.length ?? 0))
    commands.push({ do: 'change-section', section: 'haze', patch: { regions } });
  return { commands, ids };
}

function movedPoints(thing: object, shifted: (point_m: Vec3) => Vec3): object {
  if ('points' in thing) {
    const points = thing.points as readonly { position_m: Vec3 }[];
    return { points: points.map((point) => ({ ...point, position_m: shifted(point.position_m) })) };
  }
  return { position_m: shifted((thing as { position_m: Vec3 }).position_m) };
}

/** "rim" → "rim-2", "rim-2" → "rim-3": the next number that no other has. */
function nextFree(name: string, joint: '-' | ' ', taken: Set<string>): string {
  const counted = new RegExp(`^(.+)${joint}([1-9]\\d{0,3})$`).exec(name);
  const stem = counted ? counted[1]! : name;
  let number = counted ? Number(counted[2]) + 1 : 2;
  while (taken.has(`${stem}${joint}${number}`)) number++;
  const free = `${stem}${joint}${number}`;
  taken.add(free);
  return free;
}

function namesIn(document: SceneDocument, field: 'id' | 'name'): string[] {
  const lists = LISTS.flatMap(
    (list: ListName): readonly { id: string; name?: string | undefined }[] => document[list] ?? [],
  );
  const all = [...lists, ...(document.site?.keepOut ?? []), ...(document.haze?.regions ?? [])];
  return all.flatMap((entry) => {
    const value = (entry as { id?: string; name?: string | undefined })[field];
    return value === undefined ? [] : [value];
  });
}
