import { Canvas, useThree } from '@react-three/fiber';
import { useEffect, useState } from 'react';
import { documentShown } from '../store/shown-scene.ts';
import { useEditor } from '../store/use-editor.ts';
import { CameraFigure } from './camera-figure.tsx';
import { HazeRegions } from './haze-regions.tsx';
import { KeepOut } from './keep-out.tsx';
import { LampFigure } from './lamp-figure.tsx';
import { LampHandles } from './lamp-handles.tsx';
import { MarkFigure } from './mark-figure.tsx';
import { NIGHT } from './night-colours.ts';
import { FIELD_OF_VIEW_deg } from './poses.ts';
import { ScreenPlace } from './screen-place.tsx';
import { Stage } from './stage.tsx';
import { type Outlook, Viewer } from './viewer.tsx';

/** Past these, only the chosen one carries its sign and its beam: hundreds would cover the picture. */
const MOST_NAMED_LAMPS = 16;
const MOST_NUMBERED_MARKS = 40;

const OUTLOOKS: readonly { readonly outlook: Outlook; readonly name: string }[] = [
  { outlook: 'all', name: 'Whole set' },
  { outlook: 'plan', name: 'From above' },
  { outlook: 'camera', name: 'Camera' },
];

/** Where things stand: exact bodies, lamps and their beams, marks, cameras. Not how they are lit. */
export default function WorkingView({ onLost }: { readonly onLost: (why: string) => void }) {
  const openings = useEditor((state) => state.openings);
  const [asked, setAsked] = useState<{ outlook: Outlook }>({ outlook: 'all' });
  // biome-ignore lint/correctness/useExhaustiveDependencies: each opened scene is shown whole
  useEffect(() => setAsked({ outlook: 'all' }), [openings]);

  return (
    <div className="view">
      <Canvas
        frameloop="demand"
        shadows={false}
        flat
        dpr={[1, 1.5]}
        camera={{ fov: FIELD_OF_VIEW_deg, near: 0.1, far: 3000 }}
        gl={{ antialias: true, powerPreference: 'low-power' }}
        aria-label="Drawing of the set; lamps can be dragged. All of it can be set with the figures beside it."
        role="img"
        onCreated={({ gl }) => {
          gl.domElement.addEventListener('webglcontextlost', (event) => {
            event.preventDefault();
            onLost('the graphics device was taken away');
          });
        }}
      >
        <color attach="background" args={[NIGHT.air]} />
        <hemisphereLight args={['#ffe0c2', '#4a2c1c', 1.1]} />
        <directionalLight position={[-4, 9, 6]} color="#ffd9b0" intensity={1.2} />
        <Stage />
        <KeepOut />
        <HazeRegions />
        <Lamps />
        <Marks />
        <Cameras />
        <Viewer asked={asked} />
        <ScreenPlace />
      </Canvas>
      <div className="view-foot">
        <p className="view-legend">
          Where things stand, not how they are lit.
          <span className="view-hands">
            {' '}
            Drag a lamp or its aim over the ground; with the round handle, or Shift, up and down. Fingers: one
            moves the view, two turn it.
          </span>
        </p>
        <div className="outlooks">
          {OUTLOOKS.map(({ outlook, name }) => (
            <button key={outlook} type="button" onClick={() => setAsked({ outlook })}>
              {name}
            </button>
          ))}
        </div>
      </div>
    </div>
  );
}

const NONE = [] as const;

function Lamps() {
  const lamps = useEditor((state) => documentShown(state)?.lamps ?? NONE);
  const looks = useEditor((state) => state.looks);
  useFrameAfterRender();
  const few = lamps.length <= MOST_NAMED_LAMPS;
  return lamps.map(({ id }) => {
    const look = looks.get(id);
    if (!look) return null;
    return (
      <group key={id}>
        <LampFigure id={id} look={look} edged={few} />
        <LampHandles id={id} look={look} named={few} />
      </group>
    );
  });
}

function Marks() {
  const marks = useEditor((state) => documentShown(state)?.marks ?? NONE);
  useFrameAfterRender();
  return marks.map((mark, i) => (
    <MarkFigure
      key={mark.id}
      id={mark.id}
      number={i + 1}
      name={mark.name ?? mark.id}
      receptor={mark.receptor ?? 'dome'}
      numbered={marks.length <= MOST_NUMBERED_MARKS}
    />
  ));
}

function Cameras() {
  const cameras = useEditor((state) => documentShown(state)?.cameras ?? NONE);
  useFrameAfterRender();
  return cameras.map((camera) => <CameraFigure key={camera.id} camera={camera} />);
}

/** Whatever React has put in or taken out wants a frame. */
function useFrameAfterRender(): void {
  const invalidate = useThree((three) => three.invalidate);
  useEffect(() => invalidate());
}
