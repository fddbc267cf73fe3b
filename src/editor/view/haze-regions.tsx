import { useEffect, useMemo } from 'react';
import { BufferGeometry, Float32BufferAttribute } from 'three';
import { placementFrom, worldPoint } from '../../core/geometry/placement.ts';
import type { Vec3 } from '../../core/math/vec3.ts';
import type { HazeRegionSettings } from '../../scene/schema/document.ts';
import { documentShown } from '../store/shown-scene.ts';
import { useEditor } from '../store/use-editor.ts';
import { NIGHT } from './night-colours.ts';

/** The boxes that haze fills, where it does not fill everything: their edges. */
export function HazeRegions() {
  const regions = useEditor((state) => documentShown(state)?.haze?.regions);
  const geometry = useMemo(() => {
    const lines = new BufferGeometry();
    lines.setAttribute('position', new Float32BufferAttribute((regions ?? []).flatMap(edgesOf), 3));
    return lines;
  }, [regions]);
  useEffect(() => () => geometry.dispose(), [geometry]);
  if (!regions) return null;
  return (
    <lineSegments geometry={geometry}>
      <lineBasicMaterial color={NIGHT.pane} transparent opacity={0.35} />
    </lineSegments>
  );
}

const ENDS = [-0.5, 0.5] as const;

/** Twelve edges, six numbers each: along every axis, from each of the four corners of the side at its end. */
function edgesOf({ position_m, rotation_deg, size_m }: HazeRegionSettings): number[] {
  const placement = placementFrom(position_m, rotation_deg);
  return [0, 1, 2].flatMap((axis) =>
    ENDS.flatMap((a) =>
      ENDS.flatMap((b) =>
        ENDS.flatMap((along) => {
          const corner: [number, number, number] = [0, 0, 0];
          corner[axis] = along * size_m[axis]!;
          corner[(axis + 1) % 3] = a * size_m[(axis + 1) % 3]!;
          corner[(axis + 2) % 3] = b * size_m[(axis + 2) % 3]!;
          return worldPoint(placement, corner satisfies Vec3);
        }),
      ),
    ),
  );
}
