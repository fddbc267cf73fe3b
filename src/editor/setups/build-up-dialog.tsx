import { Dialog } from 'radix-ui';
import { useMemo } from 'react';
import type { SceneDocument } from '../../scene/schema/document.ts';
import { LampBadge } from '../figures/lamp-badge.tsx';
import { lampSign } from '../figures/lamp-colour.ts';
import { useFrameStore } from '../frame/use-frame.ts';
import { FRESHNESS_WORDS } from '../panels/freshness-words.ts';
import { lampsAlight } from '../stop-rule/muting.ts';
import { choose } from '../store/choose.ts';
import {
  cameraShown,
  documentShown,
  markChosen,
  readingFreshness,
  setupShown,
} from '../store/shown-scene.ts';
import { useEditor, useEditorStore } from '../store/use-editor.ts';
import { type BuildUpStep, buildUp } from './build-up.ts';
import { type BuildUpFrames, saveBuildUpSheet } from './build-up-sheet.ts';
import { aloneWords, orderWords, soFarWords } from './build-up-words.ts';
import { frameKey, sameKey, slotOf } from './frame-key.ts';
import { setupNamed, setupTitle } from './setup-edits.ts';
import { useSetups, useSetupsStore } from './setups-state.ts';
import { SheetButtons } from './sheet-buttons.tsx';
import type { LightShown, SmallFrame } from './small-frame-desk.ts';
import { sumOfFrames } from './small-light.ts';
import { SmallPicture } from './small-picture.tsx';
import { useSmallFrame } from './use-small-frame.ts';

/** The lamps of what is shown one at a time: each alone, and all so far. */
export function BuildUpDialog() {
  const setups = useSetupsStore();
  const open = useSetups((state) => state.buildUp);
  return (
    <Dialog.Root open={open} onOpenChange={(buildUpOpen) => setups.setState({ buildUp: buildUpOpen })}>
      <Dialog.Portal>
        <Dialog.Overlay className="dialog-shade" />
        <Dialog.Content className="dialog build-up" aria-describedby={undefined}>
          <BuildUp />
        </Dialog.Content>
      </Dialog.Portal>
    </Dialog.Root>
  );
}

const NO_MARKS: NonNullable<SceneDocument['marks']> = [];

function BuildUp() {
  const store = useEditorStore();
  const frameStore = useFrameStore();
  const document = useEditor(documentShown);
  const setup = useEditor(setupShown);
  const title = useEditor((state) => setupTitle(setupNamed(state, setup)));
  const marks = useEditor((state) => state.scene?.document.marks ?? NO_MARKS);
  const mark = useEditor(markChosen);
  const lamps = useEditor(lampsAlight);
  const report = useEditor((state) => state.reading?.report ?? null);
  const freshness = useEditor(readingFreshness);
  const markName = report?.marks.find(({ id }) => id === mark)?.name;
  const steps = useMemo(
    () =>
      buildUp(
        report,
        mark,
        lamps.map(({ id }) => id),
      ),
    [report, mark, lamps],
  );
  const alone = useAloneFrames(setup, steps);
  const done = alone.filter((frame) => frame !== undefined).length;
  const nameOf = (lamp: string | null) =>
    lamp === null ? 'Sky alone' : (lamps.find(({ id }) => id === lamp)?.name ?? lamp);
  const sums = useMemo(() => steps.map((_, i) => sumSoFar(alone, i)), [steps, alone]);
  const whole = done === steps.length && freshness === 'fresh';

  const save = async () => {
    const made = steps.flatMap((step, i): BuildUpFrames[] => {
      const [own, soFar] = [alone[i], sums[i]];
      return own && soFar ? [{ step, name: nameOf(step.lamp), alone: own, soFar }] : [];
    });
    await saveBuildUpSheet(store.getState(), made, markName, frameStore.getState().look);
  };

  return (
    <>
      <header className="build-up-head">
        <div>
          <Dialog.Title>One lamp at a time</Dialog.Title>
          <p className="quiet">
            <bdi>{title}</bdi>. {orderWords(markName)} {FRESHNESS_WORDS[freshness]}
          </p>
        </div>
        {marks.length > 0 && (
          <label className="build-up-mark">
            Read at
            <select value={mark} onChange={({ target }) => choose(store, [target.value])}>
              {marks.map(({ id, name }) => (
                <option key={id} value={id}>
                  {name ?? id}
                </option>
              ))}
            </select>
          </label>
        )}
      </header>
      <ol className={`build-up-steps figures ${freshness}`}>
        {steps.map((step, i) => (
          <Step
            key={step.lamp ?? ' sky'}
            step={step}
            name={nameOf(step.lamp)}
            document={document}
            setup={setup}
            soFar={sums[i]}
          />
        ))}
      </ol>
      <p className="quiet">
        Every frame at the camera’s own exposure: a lamp that gives little looks dark. Light adds, so the
        frames and readings so far are sums; ± is known for all lamps together only.
      </p>
      <SheetButtons done={done} count={steps.length} ready={whole} save={save} />
    </>
  );
}

interface StepProps {
  readonly step: BuildUpStep;
  readonly name: string;
  readonly document: SceneDocument | undefined;
  readonly setup: string | undefined;
  readonly soFar: SmallFrame | undefined;
}

function Step({ step, name, document, setup, soFar }: StepProps) {
  const unit = useEditor((state) => state.unit);
  const { frame, state } = useSmallFrame(setup, lightOf(step.lamp));
  return (
    <li className="build-up-step">
      <h3>
        {step.lamp === null ? (
          <span className="sky-badge" aria-hidden="true" />
        ) : (
          <LampBadge sign={lampSign(document, step.lamp)} size_px={22} />
        )}
        <bdi>{name}</bdi>
      </h3>
      <figure>
        <SmallPicture frame={frame} state={state} />
        <figcaption>
          <span className="quiet">alone</span> {step.alone && aloneWords(step.alone, unit)}
        </figcaption>
      </figure>
      <figure>
        <SmallPicture frame={soFar} state={soFar ? '' : 'waits'} />
        <figcaption>
          <span className="quiet">so far</span> {step.soFar && soFarWords(step.soFar, unit)}
        </figcaption>
      </figure>
    </li>
  );
}

function lightOf(lamp: string | null): LightShown {
  return lamp === null ? { kind: 'sky' } : { kind: 'lamp', id: lamp };
}

/** The frames of the steps that are of what is shown now; undefined for those that are not there yet. */
function useAloneFrames(setup: string | undefined, steps: readonly BuildUpStep[]) {
  const frames = useSetups((state) => state.frames);
  const scene = useEditor((state) => state.scene);
  const camera = useEditor((state) => cameraShown(state)?.id);
  return useMemo(() => {
    const key = scene && frameKey(scene, setup, camera);
    return steps.map(({ lamp }) => {
      const kept = frames.get(slotOf(setup, lightOf(lamp)));
      return kept && key && sameKey(kept.key, key) ? (kept.frame ?? undefined) : undefined;
    });
  }, [frames, scene, setup, camera, steps]);
}

function sumSoFar(alone: readonly (SmallFrame | undefined)[], last: number): SmallFrame | undefined {
  const parts = alone.slice(0, last + 1);
  return parts.every((frame) => frame !== undefined) ? sumOfFrames(parts) : undefined;
}
