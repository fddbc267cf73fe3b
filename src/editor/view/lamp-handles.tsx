import { memo, type ReactNode, useMemo, useRef } from 'react';
import { BufferGeometry, Color, Float32BufferAttribute, type Group } from 'three';
import type { Vec3 } from '../../core/math/vec3.ts';
import { choose } from '../store/choose.ts';
import { edit } from '../store/edits.ts';
import { documentShown } from '../store/shown-scene.ts';
import { useEditor, useEditorStore } from '../store/use-editor.ts';
import type { LampLook } from '../worker/reading-desk.ts';
import { useFollow } from './follow.ts';
import { lampNamed } from './lamp-figure.tsx';
import { NameSign } from './name-sign.tsx';
import { NIGHT } from './night-colours.ts';
import { usePlaneDrag } from './plane-drag.ts';
import { ScreenSprite, useDrawing } from './screen-sprite.tsx';

/** As wide as a gloved finger. */
const TOUCH_px = 44;
const DOT_px = 30;
const KNOB_px = 30;
/** How far above its point the handle for up and down hangs. */
const KNOB_OVER_px = 46;

interface LampHandlesProps {
  readonly id: string;
  readonly look: LampLook;
  readonly named: boolean;
}

type DraggedField = 'position_m' | 'aim_m';

/** What to take a lamp by: press it to choose it, drag it level. The chosen one has its aim and a knob for its height. */
export const LampHandles = memo(function LampHandles({ id, look, named }: LampHandlesProps) {
  const colour = `#${new Color().setRGB(...look.colour).getHexString()}`;
  const chosen = useEditor((state) => state.lamp === id);
  const on = useEditor((state) => lampNamed(documentShown(state)?.lamps, id)?.on !== false);
  const name = useEditor((state) => lampNamed(documentShown(state)?.lamps, id)?.name ?? id);
  return (
    <>
      <Handle id={id} field="position_m" colour={on ? colour : NIGHT.edge} chosen={chosen}>
        {(named || chosen) && <NameSign text={name} position={HERE} offset_px={[18, 0]} bright={chosen} />}
      </Handle>
      {chosen && (
        <>
          <Handle id={id} field="aim_m" colour={NIGHT.accent} chosen />
          <AimLine id={id} />
        </>
      )}
    </>
  );
});

const HERE: [number, number, number] = [0, 0, 0];

interface HandleProps {
  readonly id: string;
  readonly field: DraggedField;
  readonly colour: string;
  readonly chosen: boolean;
  readonly children?: ReactNode;
}

function Handle({ id, field, colour, chosen, children }: HandleProps) {
  const store = useEditorStore();
  const group = useRef<Group>(null);
  const point = () => lampNamed(documentShown(store.getState())?.lamps, id)?.[field];
  const move = (to: Vec3) => edit(store, { do: 'change', id, patch: { [field]: to } });
  const onPress = () => choose(store, [id]);
  const level = usePlaneDrag({ point, move, onPress });
  const upright = usePlaneDrag({ point, move, upright: true });

  useFollow(
    (state) => lampNamed(documentShown(state)?.lamps, id)?.[field],
    (position) => position && group.current?.position.set(...position),
  );

  const dot = useDrawing(`${field} ${colour} ${chosen}`, DOT_px, DOT_px, (pen) => {
    const middle = DOT_px / 2;
    pen.lineWidth = 2.5;
    if (field === 'position_m') {
      pen.fillStyle = colour;
      circle(pen, middle, chosen ? 6.5 : 5);
      pen.fill();
      pen.strokeStyle = NIGHT.air;
      pen.stroke();
      if (!chosen) return;
      pen.strokeStyle = NIGHT.accent;
      circle(pen, middle, 12);
      pen.stroke();
    } else {
      for (const [width, ink] of [
        [5, NIGHT.air],
        [2.5, NIGHT.accent],
      ] as const) {
        pen.lineWidth = width;
        pen.strokeStyle = ink;
        pen.beginPath();
        for (const [dx, dy] of [
          [1, 0],
          [-1, 0],
          [0, 1],
          [0, -1],
        ] as const) {
          pen.moveTo(middle + 3 * dx, middle + 3 * dy);
          pen.lineTo(middle + 12 * dx, middle + 12 * dy);
        }
        pen.stroke();
      }
    }
  });
  const knob = useDrawing('knob', KNOB_px, KNOB_px, (pen) => {
    const middle = KNOB_px / 2;
    pen.fillStyle = NIGHT.air;
    circle(pen, middle, 14);
    pen.fill();
    pen.strokeStyle = NIGHT.accent;
    pen.lineWidth = 2;
    pen.stroke();
    pen.beginPath();
    pen.moveTo(middle, 6);
    pen.lineTo(middle, KNOB_px - 6);
    for (const way of [1, -1]) {
      pen.moveTo(middle - 4, middle + way * 5);
      pen.lineTo(middle, middle + way * 9);
      pen.lineTo(middle + 4, middle + way * 5);
    }
    pen.stroke();
  });

  return (
    <group ref={group}>
      <ScreenSprite width_px={DOT_px} height_px={DOT_px} map={dot} renderOrder={chosen ? 15 : 11} />
      <ScreenSprite width_px={TOUCH_px} height_px={TOUCH_px} invisible {...level} />
      {chosen && field === 'position_m' && (
        <>
          <ScreenSprite
            width_px={KNOB_px}
            height_px={KNOB_px}
            centre={[0.5, 0.5 - KNOB_OVER_px / KNOB_px]}
            map={knob}
            renderOrder={15}
          />
          <ScreenSprite
            width_px={TOUCH_px}
            height_px={TOUCH_px}
            centre={[0.5, 0.5 - KNOB_OVER_px / TOUCH_px]}
            invisible
            {...upright}
          />
        </>
      )}
      {children}
    </group>
  );
}

function circle(pen: CanvasRenderingContext2D, middle: number, radius: number): void {
  pen.beginPath();
  pen.arc(middle, middle, radius, 0, 2 * Math.PI);
}

/** From the chosen lamp to what it is aimed at, also through bodies. */
function AimLine({ id }: { readonly id: string }) {
  const geometry = useMemo(() => {
    const line = new BufferGeometry();
    line.setAttribute('position', new Float32BufferAttribute(new Float32Array(6), 3));
    return line;
  }, []);
  useFollow(
    (state) => lampNamed(documentShown(state)?.lamps, id),
    (lamp) => {
      if (!lamp) return;
      const positions = geometry.getAttribute('position');
      positions.setXYZ(0, ...lamp.position_m);
      positions.setXYZ(1, ...lamp.aim_m);
      positions.needsUpdate = true;
      geometry.computeBoundingSphere();
    },
  );
  return (
    <lineSegments geometry={geometry} renderOrder={9}>
      <lineBasicMaterial color={NIGHT.accent} transparent opacity={0.7} depthTest={false} />
    </lineSegments>
  );
}
