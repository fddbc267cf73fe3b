import { figureLandmarks } from '../../core/geometry/figure-landmarks.ts';
import { add, type Vec3 } from '../../core/math/vec3.ts';
import { figureSpec } from '../compile/figure-shapes.ts';
import { LISTS, type ListName, type SceneDocument } from '../schema/document.ts';

export interface FoundThing {
  readonly list: ListName;
  readonly id: string;
  readonly name: string;
  /** Where it is; null for what has no place. */
  readonly position_m: Vec3 | null;
  /** What a lamp or a camera is pointed at to have it. */
  readonly aim_m: Vec3 | null;
}

/** A listed thing of any kind by its id. */
export function findThing(document: SceneDocument, id: string): FoundThing | undefined {
  for (const list of LISTS) {
    const things: readonly { id: string; name?: string | undefined; position_m?: Vec3 }[] =
      document[list] ?? [];
    const thing = things.find((one) => one.id === id);
    if (!thing) continue;
    const position_m = thing.position_m ?? null;
    return {
      list,
      id,
      name: thing.name ?? id,
      position_m,
      aim_m: faceOf(document, id) ?? middleOf(document, id) ?? position_m,
    };
  }
  return undefined;
}

/** Of a figure, where a meter would be held to its face. */
function faceOf(document: SceneDocument, id: string): Vec3 | undefined {
  const figure = document.figures?.find((one) => one.id === id);
  return figure && figureLandmarks(figureSpec(figure)).face.point_m;
}

/** A vehicle is placed by its floor, and looked at half-way up. */
function middleOf(document: SceneDocument, id: string): Vec3 | undefined {
  const solid = document.solids?.find((one) => one.id === id);
  return solid?.shape === 'vehicle' ? add(solid.position_m, [0, solid.size_m[1] / 2, 0]) : undefined;
}
