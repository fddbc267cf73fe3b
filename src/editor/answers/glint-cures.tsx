import {
  appearsText,
  costOfCure,
  curesToChooseFrom,
  leavesText,
  movedText,
  NO_CURE,
} from '../../paperwork/cure-words.ts';
import type { Cure, GlintCures } from '../../scene/mirror/cures/cures.ts';
import type { GlintReport, SceneGlint } from '../../scene/mirror/find-scene-glints.ts';
import { focusPanelOf } from '../shell/focus-panel.ts';
import { edit } from '../store/edits.ts';
import { nameOfThing } from '../store/name-of-step.ts';
import { documentShown } from '../store/shown-scene.ts';
import { useEditor, useEditorStore } from '../store/use-editor.ts';
import { cureCommand } from './cure-command.ts';

interface GlintCureListProps {
  readonly glint: SceneGlint;
  readonly report: GlintReport;
  readonly found: GlintCures | undefined;
  /** They are still being looked for. */
  readonly looking: boolean;
  /** The scene has changed since: its moves would lead elsewhere. */
  readonly stale: boolean;
}

/** What would take a glint away, cheapest first, each to be tried in one step that can be undone. */
export function GlintCureList({ glint, report, found, looking, stale }: GlintCureListProps) {
  const document = useEditor((state) => state.scene?.document);
  if (looking) return <p className="quiet">Looking for what clears it…</p>;
  if (!found || !document) return null;
  const { clear, trade, shift } = curesToChooseFrom(found);
  const nameOf = (id: string) => nameOfThing(document, id);
  const row = (cure: Cure, but?: string) => (
    <CureRow key={`${cure.change} ${cure.by_m}`} {...{ cure, but, glint, report, stale }} />
  );
  return (
    <>
      <h4>{found.cures.length > 0 ? 'Clear if' : NO_CURE}</h4>
      <ul className="cures">
        {clear.map((cure) => row(cure))}
        {trade.map((cure) => row(cure, `but then ${appearsText(cure, nameOf)}`))}
        {shift.map((cure) => row(cure, `off this surface only: ${leavesText(cure, found.glint.side)}`))}
      </ul>
    </>
  );
}

interface CureRowProps {
  readonly cure: Cure;
  readonly but: string | undefined;
  readonly glint: SceneGlint;
  readonly report: GlintReport;
  readonly stale: boolean;
}

function CureRow({ cure, but, glint, report, stale }: CureRowProps) {
  const store = useEditorStore();
  const moved = movedText(cure);
  const tryIt = (button: HTMLElement) => {
    focusPanelOf(button);
    const document = documentShown(store.getState());
    const command = document && cureCommand(document, { lamp: glint.lamp, camera: report.camera }, cure);
    if (command) edit(store, command, `${glint.lampName} out of ${glint.solidName}: ${moved}`);
  };
  return (
    <li>
      <span className="cure-words">
        {moved}
        {but !== undefined && (
          <span className="quiet">
            , <bdi>{but}</bdi>
          </span>
        )}
      </span>
      <span className="cure-cost quiet">
        <bdi>{costOfCure(cure)}</bdi>
      </span>
      <button
        type="button"
        disabled={stale}
        aria-label={`Try it: ${moved}`}
        onClick={({ currentTarget }) => tryIt(currentTarget)}
      >
        Try it
      </button>
    </li>
  );
}
