import { figureParts } from '../../core/geometry/figure.ts';
import { figureLandmarks } from '../../core/geometry/figure-landmarks.ts';
import { HEAD_RADIUS } from '../../core/geometry/figure-skeleton.ts';
import type { Shape } from '../../core/geometry/shape.ts';
import { add, distance, dot, scale, subtract, type Vec3 } from '../../core/math/vec3.ts';
import { figureSpec } from '../compile/figure-shapes.ts';
import type { SceneDocument } from '../schema/document.ts';
import type { Figure } from '../schema/figure.ts';
import type { Mark } from '../schema/mark.ts';
import { levelToward, rightTurn_deg } from './directions.ts';
import { freshId, freshName, takenIds } from './fresh-names.ts';
import type { Surroundings } from './recipe.ts';
import { pointToCentimetre } from './rounded.ts';

/** A meter is held this near to skin or clothes where it reads what falls on them. */
const HELD_AT_m = 0.25;
const OFF_SKIN_m = 0.05;

/**
 * The ids of a figure and of the marks that stand at it, to be moved as one: marks within 25 cm of its body, and nearer to it
 * than to any other figure. Only the figure where it is not in the document.
 */
export function withItsMarks(document: SceneDocument, figureId: string): string[] {
  const bodies = (document.figures ?? []).map((figure) => ({
    id: figure.id,
    parts: figureParts(figureSpec(figure)),
  }));
  const marks = (document.marks ?? []).filter(({ position_m }) => {
    let nearest: { id: string; away_m: number } | null = null;
    for (const { id, parts } of bodies) {
      const away_m = Math.min(...parts.map(({ shape }) => awayFrom_m(shape, position_m)));
      if (!nearest || away_m < nearest.away_m) nearest = { id, away_m };
    }
    return nearest !== null && nearest.id === figureId && nearest.away_m <= HELD_AT_m;
  });
  return [figureId, ...marks.map(({ id }) => id)];
}

/** From the surface of a limb; a box, which lies among limbs, counts by the ball in it. */
function awayFrom_m(shape: Extract<Shape, { kind: 'box' | 'capsule' }>, point_m: Vec3): number {
  const { origin_m, y } = shape.placement;
  if (shape.kind === 'box') return distance(point_m, origin_m) - Math.min(...shape.halfSize_m);
  const along = dot(subtract(point_m, origin_m), y);
  const nearest = Math.min(shape.halfLength_m, Math.max(-shape.halfLength_m, along));
  return distance(point_m, add(origin_m, scale(y, nearest))) - shape.radius_m;
}

/** A dome before the face, pointed at the camera: what an incident meter is held for. */
export function faceMark(document: SceneDocument, figure: Figure): Mark {
  const name = freshName(document, `${figure.name ?? figure.id}, face`);
  return {
    id: freshId(takenIds(document), name),
    name,
    position_m: pointToCentimetre(figureLandmarks(figureSpec(figure)).face.point_m),
    facing: 'camera',
    receptor: 'dome',
  };
}

/**
 * A flat cell at the edge of the head, pointed at the lamp that is most behind the figure as the camera sees it; without one,
 * away from the camera.
 */
export function rimMark(surroundings: Surroundings, figure: Figure): Mark {
  const { document, camera } = surroundings;
  const spec = figureSpec(figure);
  const { face } = figureLandmarks(spec);
  const centre = subtract(face.point_m, scale(face.direction, HEAD_RADIUS * spec.height_m + OFF_SKIN_m));
  const toCamera = camera ? levelToward(centre, camera.position_m) : face.direction;
  const turn = (position_m: Vec3) => Math.abs(rightTurn_deg(toCamera, levelToward(centre, position_m)));
  const lamp = (document.lamps ?? [])
    .filter(({ position_m }) => turn(position_m) > BEHIND_deg)
    .sort((a, b) => turn(b.position_m) - turn(a.position_m))[0];
  const outward = lamp ? levelToward(centre, lamp.position_m) : scale(toCamera, -1);
  const name = freshName(document, `${figure.name ?? figure.id}, rim`);
  return {
    id: freshId(takenIds(document), name),
    name,
    position_m: pointToCentimetre(add(centre, scale(outward, HEAD_RADIUS * spec.height_m + OFF_SKIN_m))),
    facing: lamp ? `lamp:${lamp.id}` : [round(outward[0]), 0, round(outward[2])],
    receptor: 'flat',
  };
}

const BEHIND_deg = 95;

function round(component: number): number {
  return Number(component.toFixed(3)) + 0;
}
