import type { DragEvent, PointerEvent } from 'react';
import type { Vec3 } from '../../core/math/vec3.ts';
import { placeAt, placingNow } from './placing.ts';

/** A press that wanders farther is a drag of the drawing, not a place. */
const STEADY_px = 8;

type OnScreen = { readonly clientX: number; readonly clientY: number };

/**
 * Handlers for an element round a drawing of the ground, so that what is in hand is put where the drawing is pressed or
 * dropped on. `groundAt` says which point of the ground is at a place of the screen; null where the drawing shows none.
 */
export function placingOn(groundAt: (event: OnScreen) => Vec3 | null) {
  let pressed: { pointer: number; x: number; y: number } | null = null;
  const put = (event: OnScreen) => {
    const point_m = groundAt(event);
    if (point_m) placeAt(point_m);
  };
  return {
    onPointerDown({ pointerId: pointer, clientX: x, clientY: y, button }: PointerEvent) {
      // A second finger makes it a pinch.
      pressed = button === 0 && placingNow() && pressed === null ? { pointer, x, y } : null;
    },
    onPointerUp(event: PointerEvent) {
      const began = pressed;
      pressed = null;
      if (began?.pointer !== event.pointerId || !placingNow()) return;
      if (Math.hypot(event.clientX - began.x, event.clientY - began.y) <= STEADY_px) put(event);
    },
    onPointerCancel() {
      pressed = null;
    },
    onDragOver(event: DragEvent) {
      if (!placingNow()) return;
      event.preventDefault();
      event.dataTransfer.dropEffect = 'copy';
    },
    onDrop(event: DragEvent) {
      if (!placingNow()) return;
      event.preventDefault();
      event.stopPropagation();
      put(event);
    },
  };
}
