import { memo, useEffect, useMemo } from 'react';
import { BufferGeometry, Float32BufferAttribute } from 'three';
import type { Camera } from '../../scene/schema/camera.ts';
import { cameraShown } from '../store/shown-scene.ts';
import { useEditor } from '../store/use-editor.ts';
import { NameSign } from './name-sign.tsx';
import { NIGHT } from './night-colours.ts';
import { frameCorners } from './poses.ts';

const DEPTH_m = 1.4;

/** A camera as the pyramid of what it sees, cut off close before it. */
export const CameraFigure = memo(function CameraFigure({ camera }: { readonly camera: Camera }) {
  const chosen = useEditor((state) => cameraShown(state)?.id === camera.id);
  const geometry = useMemo(() => {
    const corners = frameCorners(camera, DEPTH_m).map((corner) => corner.toArray());
    const points = corners.flatMap((corner, i) => [
      ...camera.position_m,
      ...corner,
      ...corner,
      ...corners[(i + 1) % corners.length]!,
    ]);
    const lines = new BufferGeometry();
    lines.setAttribute('position', new Float32BufferAttribute(points, 3));
    return lines;
  }, [camera]);
  useEffect(() => () => geometry.dispose(), [geometry]);

  return (
    <>
      <lineSegments geometry={geometry} renderOrder={8}>
        <lineBasicMaterial
          color={chosen ? NIGHT.word : NIGHT.quiet}
          transparent
          opacity={chosen ? 1 : 0.7}
          depthTest={false}
        />
      </lineSegments>
      <NameSign
        text={camera.id.slice(0, 2).toUpperCase()}
        position={[camera.position_m[0], camera.position_m[1], camera.position_m[2]]}
        offset_px={[-8, -14]}
      />
    </>
  );
});
