import type { Command } from '../../../scene/commands/command.ts';
import type { SceneDocument } from '../../../scene/schema/document.ts';
import { hazeBoxId, type PlanThing } from './plan-things.ts';

/** Commands that take things away. Haze whose last box goes has no boxes left and would fill everything: it goes too. */
export function removeThings(document: SceneDocument, things: readonly PlanThing[]): readonly Command[] {
  const gone = new Set(things.map(({ id }) => id));
  const of = (kind: PlanThing['kind']) => things.some((thing) => thing.kind === kind);
  const commands: Command[] = things
    .filter(({ kind }) => kind !== 'haze' && kind !== 'keepOut')
    .map(({ id }) => ({ do: 'remove', id }));
  if (of('keepOut')) {
    const keepOut = document.site!.keepOut!.filter(({ id }) => !gone.has(id));
    commands.push({
      do: 'change-section',
      section: 'site',
      patch: { keepOut: keepOut.length > 0 ? keepOut : null },
    });
  }
  if (of('haze')) {
    const regions = document.haze!.regions!.filter((_, i) => !gone.has(hazeBoxId(i)));
    commands.push({ do: 'change-section', section: 'haze', patch: regions.length > 0 ? { regions } : null });
  }
  return commands;
}
