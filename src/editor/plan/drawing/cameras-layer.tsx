import { memo } from 'react';
import type { Camera } from '../../../scene/schema/camera.ts';
import { cameraShown, documentShown } from '../../store/shown-scene.ts';
import { useEditor } from '../../store/use-editor.ts';
import { isHidden } from '../plan-state.ts';
import { focusLine, viewWedge } from '../shapes/camera-view.ts';
import { linePath, ringPath } from '../shapes/path-data.ts';
import { usePlan } from '../use-plan.ts';
import { flat, type Projection } from './projection.ts';
import { ThingGroup } from './thing-group.tsx';

const NO_CAMERAS: readonly Camera[] = [];

function useCameras(): readonly Camera[] {
  const cameras = useEditor((state) => documentShown(state)?.cameras ?? NO_CAMERAS);
  const hidden = usePlan((state) => state.hidden);
  const hiddenKinds = usePlan((state) => state.hiddenKinds);
  return cameras.filter(({ id }) => !isHidden({ hidden, hiddenKinds }, id, 'cameras'));
}

/** What the cameras see, to lie under everything that stands about: the one that is shown strongly, the others as a hint. */
export function WedgesLayer() {
  const cameras = useCameras();
  const shown = useEditor((state) => cameraShown(state)?.id);
  const chosen = useEditor((state) => state.chosen);
  const projection = usePlan((state) => state.projection);
  return cameras.map((camera) => (
    <Wedge
      key={camera.id}
      camera={camera}
      strong={camera.id === shown || chosen.includes(camera.id)}
      projection={projection}
    />
  ));
}

const Wedge = memo(function Wedge(props: {
  readonly camera: Camera;
  readonly strong: boolean;
  readonly projection: Projection;
}) {
  const { camera, strong, projection } = props;
  const focus = strong ? focusLine(camera, projection) : null;
  return (
    <g className={strong ? 'plan-wedge strong' : 'plan-wedge'}>
      <path d={ringPath(viewWedge(camera, projection))} />
      {focus && <path className="plan-focus" d={linePath(focus)} />}
    </g>
  );
});

export function CamerasLayer() {
  const cameras = useCameras();
  const shown = useEditor((state) => cameraShown(state)?.id);
  const projection = usePlan((state) => state.projection);
  return cameras.map((camera) => (
    <CameraDrawing key={camera.id} camera={camera} shown={camera.id === shown} projection={projection} />
  ));
}

const CameraDrawing = memo(function CameraDrawing(props: {
  readonly camera: Camera;
  readonly shown: boolean;
  readonly projection: Projection;
}) {
  const { camera, shown, projection } = props;
  const [u, v] = flat(camera.position_m, projection);
  const [lookU, lookV] = flat(camera.look_m, projection);
  const angle_deg = (Math.atan2(lookV - v, lookU - u) * 180) / Math.PI;
  const name = camera.name ?? camera.id;
  return (
    <ThingGroup
      id={camera.id}
      kind="cameras"
      name={name}
      position_m={camera.position_m}
      className={shown ? 'plan-camera shown' : 'plan-camera'}
      transform={`translate(${u} ${v})`}
      words={
        <g className="plan-sign">
          <text className="plan-camera-id" x={-4} y={3.5} textAnchor="middle">
            {camera.id.slice(0, 2).toUpperCase()}
          </text>
        </g>
      }
    >
      <g className="plan-sign">
        <circle className="plan-halo" r={22} />
        <path className="plan-case" transform={`rotate(${angle_deg})`} d="M-14-8H5V-4L13-8V8L5 4V8H-14Z" />
      </g>
    </ThingGroup>
  );
});
