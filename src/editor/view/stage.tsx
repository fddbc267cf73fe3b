import { useThree } from '@react-three/fiber';
import { useEffect, useMemo } from 'react';
import { DoubleSide } from 'three';
import { useEditor } from '../store/use-editor.ts';
import { mergeStage } from './merge-stage.ts';
import { bodyColour, NIGHT } from './night-colours.ts';

/** The bodies of the light model, exactly as the meter sees them. */
export function Stage() {
  const stage = useEditor((state) => state.stage);
  const invalidate = useThree((three) => three.invalidate);
  const drawn = useMemo(() => stage && mergeStage(stage), [stage]);
  useEffect(() => {
    invalidate();
    return () => {
      drawn?.edges.dispose();
      for (const { surface } of drawn?.merged ?? []) surface.dispose();
    };
  }, [drawn, invalidate]);
  if (!stage || !drawn) return null;

  return (
    <>
      {drawn.merged.map(({ substance, surface }) =>
        substance.kind === 'material' ? (
          <mesh key={surface.uuid} geometry={surface}>
            <meshLambertMaterial
              color={bodyColour(stage.surfaces[substance.index]!)}
              side={DoubleSide}
              polygonOffset
              polygonOffsetFactor={1}
              polygonOffsetUnits={1}
            />
          </mesh>
        ) : (
          <mesh key={surface.uuid} geometry={surface} renderOrder={1}>
            <meshBasicMaterial
              color={NIGHT.pane}
              side={DoubleSide}
              transparent
              opacity={0.4 - 0.25 * stage.panes[substance.index]!.direct}
              depthWrite={false}
            />
          </mesh>
        ),
      )}
      <lineSegments geometry={drawn.edges}>
        <lineBasicMaterial color={NIGHT.edge} transparent opacity={0.55} depthWrite={false} />
      </lineSegments>
    </>
  );
}
