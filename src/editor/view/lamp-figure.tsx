import { memo, useEffect, useMemo, useRef } from 'react';
import { Color, DoubleSide, type Group, type Mesh } from 'three';
import { type Face, faceRadius_m } from '../../core/lamps/face.ts';
import { lampFrame } from '../../core/lamps/lamp-frame.ts';
import { distance } from '../../core/math/vec3.ts';
import type { Lamp } from '../../scene/schema/lamp.ts';
import { documentShown } from '../store/shown-scene.ts';
import { useEditor, useEditorStore } from '../store/use-editor.ts';
import type { LampLook } from '../worker/reading-desk.ts';
import { beamLines } from './beam-lines.ts';
import { useFollow } from './follow.ts';
import { NIGHT } from './night-colours.ts';
import { matrixOf } from './shape-geometry.ts';

interface LampFigureProps {
  readonly id: string;
  readonly look: LampLook;
  /** Whether the edges of its beam are drawn although it is not chosen. */
  readonly edged: boolean;
}

/** A lamp as it stands: its bright face, a housing behind it, its stand, and the edges of its beam. */
export const LampFigure = memo(function LampFigure({ id, look, edged }: LampFigureProps) {
  const store = useEditorStore();
  const chosen = useEditor((state) => state.lamp === id);
  const on = useEditor((state) => lampNamed(documentShown(state)?.lamps, id)?.on !== false);
  const head = useRef<Group>(null);
  const beams = useRef<Group>(null);
  const stand = useRef<Group>(null);
  const pole = useRef<Mesh>(null);

  useFollow(
    (state) => lampNamed(documentShown(state)?.lamps, id),
    (lamp) => {
      if (!lamp || !head.current || !beams.current || !stand.current || !pole.current) return;
      const { origin_m, r, t, a } = lampFrame(lamp.position_m, lamp.aim_m, lamp.roll_deg);
      const backward = [-a[0], -a[1], -a[2]] as const;
      const matrix = matrixOf({ origin_m, x: r, y: t, z: backward });
      matrix.decompose(head.current.position, head.current.quaternion, head.current.scale);
      beams.current.scale.setScalar(distance(lamp.position_m, lamp.aim_m));
      stand.current.position.set(origin_m[0], 0, origin_m[2]);
      pole.current.scale.y = Math.max(0.01, Math.abs(origin_m[1]));
      pole.current.position.y = origin_m[1] / 2;
    },
  );

  const fifty = useMemo(() => beamLines(look.beam), [look.beam]);
  const ten = useMemo(() => beamLines(look.field), [look.field]);
  useEffect(() => () => fifty.dispose(), [fifty]);
  useEffect(() => () => ten.dispose(), [ten]);
  const light = useMemo(() => new Color().setRGB(...look.colour), [look.colour]);
  const foot_m = lampNamed(store.getState().scene?.document.lamps, id)?.stand?.footRadius_m ?? 0.4;

  return (
    <>
      <group ref={head}>
        <Housing face={look.face} />
        <mesh position={[0, 0, -0.004]} rotation={look.face.shape === 'octagon' ? FLATS_UP : NO_TURN}>
          <FaceGeometry face={look.face} />
          <meshBasicMaterial color={on ? light : NIGHT.edge} side={DoubleSide} toneMapped={false} />
        </mesh>
        <group ref={beams} visible={on && (edged || chosen)}>
          <lineSegments geometry={fifty}>
            <lineBasicMaterial
              color={chosen ? NIGHT.accent : light}
              transparent
              opacity={chosen ? 0.85 : 0.2}
            />
          </lineSegments>
          <lineSegments geometry={ten} visible={chosen}>
            <lineBasicMaterial color={NIGHT.accent} transparent opacity={0.28} />
          </lineSegments>
        </group>
      </group>
      <group ref={stand}>
        <mesh ref={pole}>
          <cylinderGeometry args={[0.018, 0.018, 1, 6]} />
          <meshBasicMaterial color={chosen ? NIGHT.accent : NIGHT.quiet} />
        </mesh>
        <mesh rotation={[-Math.PI / 2, 0, 0]} position={[0, 0.02, 0]}>
          <ringGeometry args={[foot_m * 0.9, foot_m, 32]} />
          <meshBasicMaterial color={chosen ? NIGHT.accent : NIGHT.quiet} side={DoubleSide} />
        </mesh>
      </group>
    </>
  );
});

export function lampNamed(lamps: readonly Lamp[] | undefined, id: string): Lamp | undefined {
  return lamps?.find((lamp) => lamp.id === id);
}

const NO_TURN: [number, number, number] = [0, 0, 0];
/** three's eight-sided circle has corners to the right and the top, the face has flats there. */
const FLATS_UP: [number, number, number] = [0, 0, Math.PI / 8];

function FaceGeometry({ face }: { readonly face: Face }) {
  if (face.shape === 'rectangle')
    return <planeGeometry args={[2 * face.halfSize_m[0], 2 * face.halfSize_m[1]]} />;
  return <circleGeometry args={[faceRadius_m(face), face.shape === 'octagon' ? 8 : 32]} />;
}

/** Behind the face (local +z), as deep as it is wide within reason. */
function Housing({ face }: { readonly face: Face }) {
  const radius_m = faceRadius_m(face);
  const depth_m = Math.min(0.45, Math.max(0.08, radius_m));
  const material = <meshLambertMaterial color="#6b4c3a" />;
  if (face.shape === 'rectangle') {
    const [x, y] = face.halfSize_m;
    const thickness_m = Math.min(0.12, 2 * Math.min(x, y));
    return (
      <mesh position={[0, 0, thickness_m / 2]}>
        <boxGeometry args={[2 * x, 2 * y, thickness_m]} />
        {material}
      </mesh>
    );
  }
  const sides = face.shape === 'octagon' ? 8 : 24;
  return (
    <group rotation={face.shape === 'octagon' ? FLATS_UP : NO_TURN}>
      <mesh position={[0, 0, depth_m / 2]} rotation={[-Math.PI / 2, 0, 0]}>
        <cylinderGeometry args={[radius_m, 0.45 * radius_m, depth_m, sides]} />
        {material}
      </mesh>
    </group>
  );
}
