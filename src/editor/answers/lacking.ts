import type { SceneDocument } from '../../scene/schema/document.ts';
import { WALKER } from '../../scene/schema/path.ts';
import { documentShown } from '../store/shown-scene.ts';
import { useEditor } from '../store/use-editor.ts';
import type { AnswerKind } from '../worker/answer-kinds.ts';

/** What the scene lacks for a question to make sense, and what to do about it; null where it lacks nothing. */
export function lackingFor(kind: AnswerKind, document: SceneDocument | undefined): string | null {
  if (!document) return 'No scene is open.';
  const lamps = document.lamps ?? [];
  const lit = lamps.some(({ on = true, level = 1 }) => on && level > 0);
  const camera = (document.cameras?.length ?? 0) > 0;
  switch (kind) {
    case 'glints':
      if (!camera) return 'No camera: a glint is there for one point of view only. Place a camera first.';
      if (!lit) return 'No lamp is lit. It is lamps that mirror: place one, or switch one on.';
      return null;
    case 'separation':
    case 'wardrobe':
      if (!camera) return 'No camera: a figure stands out as one camera sees it. Place a camera first.';
      if (!document.figures?.length)
        return 'No figures: place a person, and see how the outline stands out from what is behind.';
      if (!lit && !document.site?.sky?.illuminance_lx)
        return 'No light: place a lamp, or switch one on, to see the figures by.';
      return null;
    case 'power':
      return lamps.length > 0 ? null : 'No lamps: nothing to power yet.';
    case 'stands':
      return lamps.length > 0 ? null : 'No lamps: nothing stands on a stand yet.';
    case 'lens':
    case 'focus':
      return camera ? null : 'No camera: place one, and see what its lens takes in.';
    case 'night':
      return document.site?.place
        ? null
        : 'The scene does not say where and when it is. Give the site its latitude, longitude and start, and see when it is dark enough.';
    case 'walk': {
      const figures = document.figures ?? [];
      const walked = document.paths?.some(({ of }) => of === WALKER || figures.some(({ id }) => id === of));
      if (!walked)
        return 'Nobody walks: add a path of a walker or of a figure, and see the light along it second by second.';
      return camera ? null : 'No camera: stops are counted from one. Place a camera first.';
    }
    case 'readings':
      if (!document.marks?.length)
        return 'No marks: a mark says where the meter is held. Place one at a face first.';
      if (lamps.length === 0) return 'No lamps: a reading says something of lamps. Place one first.';
      return camera ? null : 'No camera: domes point to one. Place a camera first.';
  }
}

export function useLacking(kind: AnswerKind): string | null {
  return useEditor((state) => lackingFor(kind, documentShown(state)));
}
