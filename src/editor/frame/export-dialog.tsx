import { Dialog } from 'radix-ui';
import { type FormEvent, useId, useRef, useState } from 'react';
import { downloadBlob } from '../documents/scene-file.ts';
import { cameraShown } from '../store/shown-scene.ts';
import { useEditor, useEditorStore } from '../store/use-editor.ts';
import type { LightLook } from './frame-file.ts';
import { startExport } from './start-export.ts';
import { useFrame, useFrameStore } from './use-frame.ts';

const MOST_WIDTH_px = 16_384;
/** What so many samples leave of grain, roughly, on a scene with haze: measured on the demo, no promise. */
const QUALITIES = [
  [16, 'Quick: 16 samples, grainy'],
  [64, 'Fair: 64 samples'],
  [256, 'Fine: 256 samples'],
  [1024, 'Clean: 1024 samples, slow'],
] as const;

type Going = { readonly share: number } | { readonly words: string; readonly failed: boolean } | null;

/** The frame as a picture file of any size, in the look that is shown, or its light itself. */
export function ExportDialog() {
  const frame = useFrameStore();
  const open = useFrame((state) => state.exporting);
  return (
    <Dialog.Root open={open} onOpenChange={(exporting) => frame.setState({ exporting })}>
      <Dialog.Trigger>Export…</Dialog.Trigger>
      <Dialog.Portal>
        <Dialog.Overlay className="dialog-shade" />
        <Dialog.Content className="dialog" aria-describedby={undefined}>
          <Dialog.Title asChild>
            <h2>Export the frame</h2>
          </Dialog.Title>
          <ExportForm />
        </Dialog.Content>
      </Dialog.Portal>
    </Dialog.Root>
  );
}

function ExportForm() {
  const store = useEditorStore();
  const look = useFrame((state) => state.look);
  const aspect = useEditor((state) => {
    const camera = cameraShown(state);
    return camera ? (camera.aspect ?? camera.sensor_mm[0] / camera.sensor_mm[1]) : 16 / 9;
  });
  const [file, setFile] = useState<'png' | 'exr'>('png');
  const [width, setWidth] = useState('1920');
  const [samples, setSamples] = useState(64);
  const [going, setGoing] = useState<Going>(null);
  const calling = useRef<AbortController | null>(null);
  const widthField = useId();
  const qualityField = useId();

  const width_px = Number(width);
  const possible = Number.isInteger(width_px) && width_px >= 16 && width_px <= MOST_WIDTH_px;
  const height_px = possible ? Math.max(1, Math.round(width_px / aspect)) : 0;
  const lightLook: LightLook = look === 'normals' || look === 'things' ? 'picture' : look;
  const working = going !== null && 'share' in going;

  const start = async (event: FormEvent) => {
    event.preventDefault();
    if (!possible || working) return;
    const call = new AbortController();
    calling.current = call;
    setGoing({ share: 0 });
    try {
      const kind = file === 'exr' ? ({ file } as const) : ({ file, look: lightLook } as const);
      const wish = { kind, width_px, height_px, samples };
      const { blob, name } = await startExport(
        store.getState(),
        wish,
        (share) => setGoing((now) => (now && 'share' in now ? { share } : now)),
        call.signal,
      );
      downloadBlob(name, blob);
      setGoing({ words: `${name} is where this browser puts downloads.`, failed: false });
    } catch (error) {
      if (call.signal.aborted) setGoing({ words: 'Called off. Nothing was written.', failed: false });
      else setGoing({ words: `Not exported: ${(error as Error).message}`, failed: true });
    }
  };

  return (
    <form onSubmit={start}>
      <fieldset className="dialog-choices" disabled={working}>
        <legend>What</legend>
        <label>
          <input type="radio" name="file" checked={file === 'png'} onChange={() => setFile('png')} />
          Picture (PNG), as it is shown
        </label>
        <label>
          <input type="radio" name="file" checked={file === 'exr'} onChange={() => setFile('exr')} />
          Linear light (EXR)
        </label>
      </fieldset>
      <fieldset className="dialog-fields" disabled={working}>
        <legend className="out-of-sight">Size and quality</legend>
        <label className="dialog-field" htmlFor={widthField}>
          Width, pixels
          <input
            id={widthField}
            inputMode="numeric"
            value={width}
            aria-invalid={!possible}
            onChange={({ target }) => setWidth(target.value)}
          />
        </label>
        <label className="dialog-field" htmlFor={qualityField}>
          Quality
          <select
            id={qualityField}
            value={samples}
            onChange={({ target }) => setSamples(Number(target.value))}
          >
            {QUALITIES.map(([count, words]) => (
              <option key={count} value={count}>
                {words}
              </option>
            ))}
          </select>
        </label>
      </fieldset>
      <p className="quiet">
        {possible
          ? `${width_px} × ${height_px} pixels. Grain is left in; settings and the grain reached stand in the file.`
          : `A width of 16 to ${MOST_WIDTH_px} whole pixels.`}
      </p>
      {working && (
        <p>
          <progress value={going.share} max={1} aria-label="Export" /> {Math.round(100 * going.share)} %
        </p>
      )}
      {going && 'words' in going && <p role={going.failed ? 'alert' : 'status'}>{going.words}</p>}
      <div className="dialog-buttons">
        {working ? (
          <button type="button" onClick={() => calling.current?.abort()}>
            Call off
          </button>
        ) : (
          <>
            <Dialog.Close>Close</Dialog.Close>
            <button type="submit" className="first-choice" disabled={!possible}>
              Export
            </button>
          </>
        )}
      </div>
    </form>
  );
}
