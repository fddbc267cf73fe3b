import { useId } from 'react';
import { cameraShown, setupShown } from '../store/shown-scene.ts';
import { useEditor, useEditorStore } from '../store/use-editor.ts';

/** Which camera's exposure the stops are counted from, and which setup is shown. */
export function CameraAndSetup() {
  const store = useEditorStore();
  const cameraField = useId();
  const setupField = useId();
  const cameras = useEditor((state) => state.scene?.document.cameras) ?? [];
  const setups = useEditor((state) => state.scene?.document.setups) ?? [];
  const camera = useEditor((state) => cameraShown(state)?.id);
  const setup = useEditor(setupShown);

  return (
    <fieldset className="top-choices">
      <legend className="out-of-sight">Camera and setup</legend>
      <div>
        <label className="out-of-sight" htmlFor={cameraField}>
          Camera
        </label>
        <select
          id={cameraField}
          value={camera ?? ''}
          disabled={cameras.length === 0}
          onChange={({ target }) => store.setState({ camera: target.value })}
        >
          {cameras.length === 0 && <option value="">none</option>}
          {cameras.map(({ id, name }) => (
            <option key={id} value={id}>
              {name ?? id}
            </option>
          ))}
        </select>
      </div>
      <div className="setup-choice">
        <label className="out-of-sight" htmlFor={setupField}>
          Setup
        </label>
        <select
          id={setupField}
          value={setup ?? ''}
          disabled={setups.length === 0}
          onChange={({ target }) => store.setState({ setup: target.value || undefined, refusedEdit: null })}
        >
          <option value="">Base</option>
          {setups.map(({ id, name }) => (
            <option key={id} value={id}>
              {name ? `${id} · ${name}` : id}
            </option>
          ))}
        </select>
      </div>
    </fieldset>
  );
}
