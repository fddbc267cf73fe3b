import { Dialog } from 'radix-ui';
import { useMemo } from 'react';
import type { MeterReport } from '../../scene/meter/meter-scene.ts';
import type { Setup } from '../../scene/schema/setup.ts';
import { useFrameStore } from '../frame/use-frame.ts';
import { cameraShown } from '../store/shown-scene.ts';
import { useEditor, useEditorStore } from '../store/use-editor.ts';
import { type SetupOnSheet, saveAllSetupsSheet } from './all-setups-sheet.ts';
import { changesInWords } from './changes-in-words.ts';
import { frameKey, readingKey, readingSlot, sameKey, slotOf } from './frame-key.ts';
import { setupsOf, setupTitle } from './setup-edits.ts';
import { readingConventions, setupReadings } from './setup-readings.ts';
import { useSetups, useSetupsStore } from './setups-state.ts';
import { SheetButtons } from './sheet-buttons.tsx';
import type { SmallFrame } from './small-frame-desk.ts';
import { SmallPicture } from './small-picture.tsx';
import { useSmallFrame } from './use-small-frame.ts';

const ALL = { kind: 'all' } as const;

/** The base and every setup side by side in shooting order, each with its readings and what it changes. */
export function AllSetupsDialog() {
  const setups = useSetupsStore();
  const open = useSetups((state) => state.allSetups);
  return (
    <Dialog.Root open={open} onOpenChange={(allSetups) => setups.setState({ allSetups })}>
      <Dialog.Portal>
        <Dialog.Overlay className="dialog-shade" />
        <Dialog.Content className="dialog build-up" aria-describedby={undefined}>
          <AllSetups />
        </Dialog.Content>
      </Dialog.Portal>
    </Dialog.Root>
  );
}

function AllSetups() {
  const store = useEditorStore();
  const frameStore = useFrameStore();
  const base = useEditor((state) => state.scene?.document);
  const lengths = useEditor((state) => state.lengths);
  const setups = useEditor(setupsOf);
  const camera = useEditor((state) => cameraShown(state));
  const all = useMemo(
    () =>
      [undefined, ...setups].map((setup) => ({
        setup,
        changes:
          base && setup
            ? changesInWords(base, setup, lengths).map(({ name, fields }) => `${name}: ${fields.join('; ')}`)
            : [],
      })),
    [base, setups, lengths],
  );
  const unit = useEditor((state) => state.unit);
  const marks = useEditor((state) => state.scene?.document.marks?.length ?? 0);
  const frames = useFrames(all.map(({ setup }) => setup));
  const reports = useReports(all.map(({ setup }) => setup));
  const read = reports.flatMap((report) => report ?? []);
  const done = frames.filter((frame) => frame !== undefined).length;
  const [zero, ...conventions] = read.length > 0 ? readingConventions(read, unit) : [];
  const allRead = marks === 0 || reports.every((report) => report !== undefined);
  const save = async () => {
    const cells = all.flatMap(({ setup, changes }, i): SetupOnSheet[] => {
      const frame = frames[i];
      return frame
        ? [{ id: setup?.id, title: setupTitle(setup), frame, report: reports[i] ?? null, changes }]
        : [];
    });
    await saveAllSetupsSheet(store.getState(), cells, frameStore.getState().look);
  };

  return (
    <>
      <header className="build-up-head">
        <div>
          <Dialog.Title>All setups</Dialog.Title>
          <p className="quiet">
            In shooting order, by camera <bdi>{camera?.name ?? camera?.id}</bdi>. {zero}
          </p>
        </div>
      </header>
      <div className="all-setups">
        <ol>
          {all.map(({ setup, changes }, i) => (
            <Card
              key={setup?.id ?? ' base'}
              setup={setup}
              report={marks === 0 ? null : reports[i]}
              changes={changes}
            />
          ))}
        </ol>
        <p className="quiet">
          Every frame at the camera’s own exposure, small and with its noise smoothed: for telling setups
          apart, not for judging light. {conventions.join(' ')}
        </p>
      </div>
      <SheetButtons done={done} count={all.length} ready={done === all.length && allRead} save={save} />
    </>
  );
}

function Card({
  setup,
  report,
  changes,
}: {
  readonly setup: Setup | undefined;
  /** Undefined while it is being read; null where there is nothing to read. */
  readonly report: MeterReport | null | undefined;
  readonly changes: readonly string[];
}) {
  const { frame, state } = useSmallFrame(setup?.id, ALL);
  return (
    <li className="build-up-step">
      <h3>
        <bdi dir="ltr" title={setupTitle(setup)}>
          {setupTitle(setup)}
        </bdi>
      </h3>
      <figure>
        <SmallPicture frame={frame} state={state} />
        {report && <Readings report={report} />}
        {report === undefined && <p className="quiet setup-readings">Metering…</p>}
        <figcaption className="quiet">
          {setup === undefined
            ? 'As the scene stands without a setup.'
            : changes.length === 0
              ? 'As the base so far.'
              : changes.map((words) => (
                  <p key={words}>
                    <bdi dir="ltr">{words}</bdi>
                  </p>
                ))}
        </figcaption>
      </figure>
    </li>
  );
}

function Readings({ report }: { readonly report: MeterReport }) {
  return (
    <table className="setup-readings">
      <thead className="out-of-sight">
        <tr>
          <th scope="col">Mark</th>
          <th scope="col">Stops</th>
          <th scope="col">±</th>
        </tr>
      </thead>
      <tbody>
        {setupReadings(report).map(({ id, name, stops, plusMinus }) => (
          <tr key={id}>
            <th scope="row" title={name}>
              <bdi>{name}</bdi>
            </th>
            <td>{stops}</td>
            <td className="quiet">{plusMinus}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** The frames that are of the scene as it stands; undefined for those that are not there yet. */
function useFrames(setups: readonly (Setup | undefined)[]): readonly (SmallFrame | undefined)[] {
  const kept = useSetups((state) => state.frames);
  const scene = useEditor((state) => state.scene);
  const camera = useEditor((state) => cameraShown(state)?.id);
  return setups.map((setup) => {
    const found = kept.get(slotOf(setup?.id, ALL));
    const current = scene && found && sameKey(found.key, frameKey(scene, setup?.id, camera));
    return current ? (found.frame ?? undefined) : undefined;
  });
}

/** The readings of the scene as it stands; undefined for those that are not there yet. */
function useReports(setups: readonly (Setup | undefined)[]): readonly (MeterReport | null | undefined)[] {
  const kept = useSetups((state) => state.readings);
  const scene = useEditor((state) => state.scene);
  const camera = useEditor((state) => cameraShown(state)?.id);
  return setups.map((setup) => {
    const found = kept.get(readingSlot(setup?.id));
    const current = scene && found && sameKey(found.key, readingKey(scene, setup?.id, camera));
    return current ? found.report : undefined;
  });
}
