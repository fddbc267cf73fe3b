import { OrbitControls } from '@react-three/drei/core/OrbitControls.js';
import { useThree } from '@react-three/fiber';
import { useEffect } from 'react';
import { TOUCH, type Vector3 } from 'three';
import { cameraShown, documentShown } from '../store/shown-scene.ts';
import { useEditorStore } from '../store/use-editor.ts';
import { cameraPose, overallPose, type Pose, planPose } from './poses.ts';

/** As on the plan, one finger moves the view; two turn it, and together or apart they magnify. */
const FINGERS = { ONE: TOUCH.PAN, TWO: TOUCH.DOLLY_ROTATE };

export type Outlook = 'all' | 'plan' | 'camera';

interface Turnable {
  readonly target: Vector3;
  update(): void;
}

/** The eye of the working view. `asked` is another object each time an outlook is asked for. */
export function Viewer({ asked }: { readonly asked: { readonly outlook: Outlook } }) {
  const store = useEditorStore();
  const get = useThree((three) => three.get);
  const controls = useThree((three) => three.controls) as unknown as Turnable | null;

  useEffect(() => {
    const { camera, size, invalidate } = get();
    const state = store.getState();
    const document = documentShown(state);
    if (!controls || !document) return;
    const pose = poseFor(asked.outlook);
    camera.position.copy(pose.from);
    controls.target.copy(pose.at);
    controls.update();
    invalidate();

    function poseFor(outlook: Outlook): Pose {
      const aspect = size.width / size.height;
      const filming = cameraShown(state);
      if (outlook === 'camera' && filming) return cameraPose(filming);
      return outlook === 'plan' ? planPose(document!, aspect) : overallPose(document!, aspect);
    }
  }, [asked, controls, get, store]);

  return (
    <OrbitControls makeDefault enableDamping={false} maxDistance={800} minDistance={0.5} touches={FINGERS} />
  );
}
