import { type ThreeEvent, useThree } from '@react-three/fiber';
import { useRef } from 'react';
import { Plane, Vector3 } from 'three';
import type { Vec3 } from '../../core/math/vec3.ts';
import { beginGesture, endGesture } from '../store/edits.ts';
import { useEditorStore } from '../store/use-editor.ts';

interface PlaneDrag {
  /** Where the dragged point is now. */
  readonly point: () => Vec3 | undefined;
  readonly move: (point: Vec3) => void;
  /** Only up and down; else level, and up and down with Shift. */
  readonly upright?: boolean;
  readonly onPress?: () => void;
}

/** Further off, a pixel is many metres: a level plane seen edge-on must not fling a lamp away. */
const FURTHEST_m = 400;

/** Pointer handlers that drag a point of the scene in a level plane, or up and down in the plane that faces the viewer. */
export function usePlaneDrag({ point, move, upright, onPress }: PlaneDrag) {
  const store = useEditorStore();
  const three = useThree();
  const dragged = useRef<{ plane: Plane; grip: Vector3; from: Vec3; upright: boolean } | null>(null);

  const setOrbiting = (enabled: boolean) => {
    const controls = three.controls as { enabled?: boolean } | null;
    if (controls) controls.enabled = enabled;
  };
  const end = () => {
    if (!dragged.current) return;
    dragged.current = null;
    setOrbiting(true);
    endGesture(store);
  };

  return {
    onPointerDown(event: ThreeEvent<PointerEvent>) {
      if (event.button !== 0) return;
      event.stopPropagation();
      onPress?.();
      const from = point();
      if (!from) return;
      (event.target as Element).setPointerCapture(event.pointerId);
      const vertical = upright === true || event.shiftKey;
      const at = new Vector3(...from);
      const normal = vertical
        ? three.camera.position.clone().sub(at).setY(0).normalize()
        : new Vector3(0, 1, 0);
      const plane = new Plane().setFromNormalAndCoplanarPoint(normal, at);
      const held = event.ray.intersectPlane(plane, new Vector3());
      dragged.current = { plane, grip: held ? at.sub(held) : new Vector3(), from, upright: vertical };
      setOrbiting(false);
      beginGesture(store, 'drag');
    },
    onPointerMove(event: ThreeEvent<PointerEvent>) {
      const drag = dragged.current;
      if (!drag) return;
      event.stopPropagation();
      const hit = event.ray.intersectPlane(drag.plane, new Vector3());
      if (!hit || hit.distanceTo(three.camera.position) > FURTHEST_m) return;
      const { x, y, z } = hit.add(drag.grip);
      const [fromX, fromY, fromZ] = drag.from;
      move(drag.upright ? [fromX, centimetres(y), fromZ] : [centimetres(x), fromY, centimetres(z)]);
    },
    onPointerUp: end,
    onPointerCancel: end,
    onLostPointerCapture: end,
  };
}

function centimetres(length_m: number): number {
  return Number(length_m.toFixed(2));
}
