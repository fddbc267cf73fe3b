import { memo, useRef } from 'react';
import { DoubleSide, type Group, Vector3 } from 'three';
import { meterPoint } from '../../scene/meter/meter-scene.ts';
import { SceneError } from '../../scene/problems/problem.ts';
import { choose } from '../store/choose.ts';
import type { EditorState } from '../store/editor-state.ts';
import { cameraShown, documentShown, markChosen } from '../store/shown-scene.ts';
import { useEditor, useEditorStore } from '../store/use-editor.ts';
import { useFollow } from './follow.ts';
import { NameSign } from './name-sign.tsx';
import { NIGHT } from './night-colours.ts';
import { ScreenSprite, useDrawing } from './screen-sprite.tsx';

const BALL_m = 0.09;
const STICK_m = 0.4;
const DISC_px = 22;
const TOUCH_px = 44;
const BESIDE_px = 17;

interface MarkFigureProps {
  readonly id: string;
  /** As in the table of readings, from 1. */
  readonly number: number;
  readonly name: string;
  readonly receptor: 'dome' | 'flat';
  readonly numbered: boolean;
}

/** A meter held at a mark: a ball with its receptor in front, a stick the way it faces, and its number in the table. */
export const MarkFigure = memo(function MarkFigure(props: MarkFigureProps) {
  const { id, number, name, receptor, numbered } = props;
  const store = useEditorStore();
  const chosen = useEditor((state) => markChosen(state) === id);
  const group = useRef<Group>(null);

  useFollow(
    (state) => placeOf(state, id),
    (place) => {
      if (!place || !group.current) return;
      const [x, y, z, dx, dy, dz] = place.split(' ').map(Number) as [
        number,
        number,
        number,
        number,
        number,
        number,
      ];
      group.current.position.set(x, y, z);
      group.current.quaternion.setFromUnitVectors(FORWARD, new Vector3(dx, dy, dz));
    },
  );

  const side = number % 2 === 0 ? -1 : 1;
  const disc = useDrawing(`${number} ${chosen}`, DISC_px, DISC_px, (pen) => {
    pen.beginPath();
    pen.arc(DISC_px / 2, DISC_px / 2, DISC_px / 2 - 1.5, 0, 2 * Math.PI);
    pen.fillStyle = chosen ? NIGHT.accent : 'rgba(18, 11, 8, 0.85)';
    pen.fill();
    pen.strokeStyle = chosen ? NIGHT.air : NIGHT.word;
    pen.lineWidth = 1.5;
    pen.stroke();
    pen.fillStyle = chosen ? NIGHT.air : NIGHT.word;
    pen.font = '600 12px system-ui, sans-serif';
    pen.textAlign = 'center';
    pen.textBaseline = 'middle';
    pen.fillText(String(number), DISC_px / 2, DISC_px / 2 + 1);
  });
  const colour = chosen ? NIGHT.accent : NIGHT.word;

  return (
    <group ref={group}>
      <mesh>
        <sphereGeometry args={[BALL_m * 0.7, 20, 12]} />
        <meshLambertMaterial color={NIGHT.quiet} />
      </mesh>
      {receptor === 'dome' ? (
        <mesh rotation={[Math.PI / 2, 0, 0]} position={[0, 0, BALL_m * 0.35]}>
          <sphereGeometry args={[BALL_m * 0.66, 20, 8, 0, 2 * Math.PI, 0, Math.PI / 2]} />
          <meshBasicMaterial color={colour} side={DoubleSide} />
        </mesh>
      ) : (
        <mesh position={[0, 0, BALL_m * 0.72]}>
          <circleGeometry args={[BALL_m * 0.66, 24]} />
          <meshBasicMaterial color={colour} side={DoubleSide} />
        </mesh>
      )}
      <mesh rotation={[Math.PI / 2, 0, 0]} position={[0, 0, STICK_m / 2]}>
        <cylinderGeometry args={[0.008, 0.008, STICK_m, 6]} />
        <meshBasicMaterial color={colour} />
      </mesh>
      {(numbered || chosen) && (
        <>
          <ScreenSprite
            width_px={DISC_px}
            height_px={DISC_px}
            centre={[0.5 - (side * BESIDE_px) / DISC_px, 0.5]}
            map={disc}
            renderOrder={chosen ? 14 : 12}
          />
          <ScreenSprite
            width_px={TOUCH_px}
            height_px={TOUCH_px}
            centre={[0.5 - (side * BESIDE_px) / TOUCH_px, 0.5]}
            invisible
            onClick={(event) => {
              event.stopPropagation();
              choose(store, [id]);
            }}
          />
        </>
      )}
      {chosen && (
        <NameSign text={name} position={[0, 0, 0]} offset_px={[side * (BESIDE_px + 14), 0]} bright />
      )}
    </group>
  );
});

const FORWARD = new Vector3(0, 0, 1);

/** Position and facing as text, so that marks that stay where they are can be told at a glance. */
function placeOf(state: EditorState, id: string): string | undefined {
  const document = documentShown(state);
  const mark = document?.marks?.find((entry) => entry.id === id);
  if (!document || !mark) return undefined;
  const camera = cameraShown(state);
  try {
    const facing = camera ? meterPoint(document, mark, camera).facing : [0, 1, 0];
    return [...mark.position_m, ...facing].join(' ');
  } catch (error) {
    if (!(error instanceof SceneError)) throw error;
    return [...mark.position_m, 0, 1, 0].join(' ');
  }
}
