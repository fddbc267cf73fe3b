import { useEffect, useMemo } from 'react';
import { BufferGeometry, Float32BufferAttribute } from 'three';
import { documentShown } from '../store/shown-scene.ts';
import { useEditor } from '../store/use-editor.ts';
import { NIGHT } from './night-colours.ts';

const OVER_GROUND_m = 0.03;
const HATCH_m = 0.5;

/** Where nothing may stand: an outline on the ground with a short stroke at every half metre of it. */
export function KeepOut() {
  const areas = useEditor((state) => documentShown(state)?.site?.keepOut);
  const geometry = useMemo(() => {
    const points: number[] = [];
    for (const { outline_m } of areas ?? []) {
      for (const [i, [x, z]] of outline_m.entries()) {
        const [toX, toZ] = outline_m[(i + 1) % outline_m.length]!;
        points.push(x, OVER_GROUND_m, z, toX, OVER_GROUND_m, toZ);
        const length_m = Math.hypot(toX - x, toZ - z);
        const strokes = Math.min(400, Math.floor(length_m / HATCH_m));
        for (let s = 0; s < strokes; s++) {
          const along = (s + 0.5) / strokes;
          const [sx, sz] = [x + along * (toX - x), z + along * (toZ - z)];
          points.push(sx, OVER_GROUND_m, sz, sx + 0.12, OVER_GROUND_m, sz + 0.12);
        }
      }
    }
    const lines = new BufferGeometry();
    lines.setAttribute('position', new Float32BufferAttribute(points, 3));
    return lines;
  }, [areas]);
  useEffect(() => () => geometry.dispose(), [geometry]);
  if (!areas) return null;
  return (
    <lineSegments geometry={geometry}>
      <lineBasicMaterial color={NIGHT.limit} />
    </lineSegments>
  );
}
