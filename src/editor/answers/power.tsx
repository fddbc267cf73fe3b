import { useEffect, useMemo, useState } from 'react';
import { powerSheet } from '../../paperwork/power-sheet.ts';
import type { Command } from '../../scene/commands/command.ts';
import { POWER_DEFAULTS, type PowerProposal, type PowerReport } from '../../scene/power/power-scene.ts';
import { putInPlace, recipeNamed } from '../building/put-in-place.ts';
import { edit } from '../store/edits.ts';
import { documentShown, readingFreshness } from '../store/shown-scene.ts';
import { useEditor, useEditorStore } from '../store/use-editor.ts';
import type { AskedOf } from '../worker/answer-kinds.ts';
import { AnswerPanel } from './answer-panel.tsx';
import { Findings } from './findings.tsx';
import { useLacking } from './lacking.ts';
import { NumberSetting } from './number-setting.tsx';
import { SheetRows } from './sheet-rows.tsx';
import { SupplyBars } from './supply-bars.tsx';
import { useAnswer, useAsked } from './use-answers.ts';

/** What the lamps draw, whether the supplies carry it, and what is lost with one of them. */
export function Power() {
  const inUse = useAnswer('power');
  const [asked, ask] = useAsked('power');
  const report = inUse.shown?.answer;
  const sheet = useMemo(() => report && powerSheet(report), [report]);
  const captions = useMemo(() => (report ? captionsOf(report) : []), [report]);
  return (
    <AnswerPanel
      name="Power"
      kind="power"
      inUse={inUse}
      heading={sheet?.heading}
      lacking={useLacking('power')}
      settings={<PowerSettings asked={asked} ask={ask} />}
      cautions={sheet?.cautions.slice(1)}
      conventions={sheet?.footer}
    >
      {report && sheet && (
        <>
          <Findings worst sentences={sheet.warnings} label="Before the load goes on" />
          {report.proposal?.fits && report.proposal.moves.length > 0 && (
            <PlugLikeThis proposal={report.proposal} stale={inUse.freshness !== 'fresh'} />
          )}
          <PlugIn />
          <SupplyBars supplies={report.supplies} />
          {sheet.tables.map(({ rows, leftColumns }, i) => (
            <SheetRows
              key={captions[i] ?? rows[0]!.join()}
              caption={captions[i] ?? 'If it goes out, further marks'}
              rows={rows}
              leftColumns={leftColumns}
              isFault={(row) => /OVER|TRIPS/.test(rows[row + 1]!.at(-1)!)}
            />
          ))}
          <IfLost asked={asked} ask={ask} />
          <Findings
            sentences={sheet.findings.slice(sheet.warnings.length)}
            label="Generator, fuel and the like"
          />
        </>
      )}
    </AnswerPanel>
  );
}

/** In the order in which the sheet has its tables. */
function captionsOf({ supplies, ifLost }: PowerReport): string[] {
  const known = supplies.some((supply) => supply.limit_A !== null && supply.kind !== 'battery');
  return [
    ...(supplies.length > 0 ? ['Supplies'] : []),
    'Lamps and what they draw',
    ...(known ? ['Room for more'] : []),
    ...(ifLost ? ['If it goes out'] : []),
  ];
}

interface SettingsProps {
  readonly asked: AskedOf<'power'>;
  readonly ask: (change: Partial<AskedOf<'power'>>) => void;
}

function PowerSettings({ asked, ask }: SettingsProps) {
  const { hours, fuel_L_per_kWh, limit_percent, temperature_C } = POWER_DEFAULTS;
  return (
    <div className="answer-settings">
      <NumberSetting
        label="Runs for"
        unit="h"
        value={asked.hours}
        usual={String(hours)}
        from={0}
        to={1000}
        onChange={(value) => ask({ hours: value })}
      />
      <NumberSetting
        label="Fuel"
        unit="L/kWh"
        value={asked.fuel_L_per_kWh}
        usual={String(fuel_L_per_kWh)}
        from={0.05}
        to={5}
        onChange={(value) => ask({ fuel_L_per_kWh: value })}
      />
      <NumberSetting
        label="Drop, at most"
        unit="%"
        value={asked.limit_percent}
        usual={String(limit_percent)}
        from={0.1}
        to={50}
        onChange={(value) => ask({ limit_percent: value })}
      />
      <NumberSetting
        label="Copper at"
        unit="°C"
        value={asked.temperature_C}
        usual={String(temperature_C)}
        from={-40}
        to={150}
        onChange={(value) => ask({ temperature_C: value })}
      />
    </div>
  );
}

/**
 * The readings on the page say what each mark loses with a lamp: only while they are of this scene and of all light. While
 * they are not, nothing is said of it.
 */
function IfLost({ asked, ask }: SettingsProps) {
  const [on, setOn] = useState(asked.metered !== undefined);
  const reading = useEditor((state) =>
    readingFreshness(state) === 'fresh' ? (state.reading?.report ?? undefined) : undefined,
  );
  const wanted = on ? reading : undefined;
  useEffect(() => {
    if (wanted !== asked.metered) ask({ metered: wanted });
  }, [wanted, asked.metered, ask]);
  const noMarks = useEditor((state) => !state.scene?.document.marks?.length);
  if (noMarks) return <p className="quiet">Place a mark to see what it loses when a lamp goes out.</p>;
  return (
    <>
      <button type="button" aria-pressed={on} onClick={() => setOn(!on)}>
        {on ? 'Leave out what goes with a lamp' : 'What if one goes out?'}
      </button>
      {on && !reading && <p className="quiet">Waiting for the meter to settle…</p>}
    </>
  );
}

const SUPPLIES = ['supply:socket', 'supply:generator'] as const;

/** For lamps that are plugged in nowhere: a usual supply, and they on it as far as it carries them. */
function PlugIn() {
  const store = useEditorStore();
  const loose = useEditor((state) => documentShown(state)?.lamps?.some(({ supply }) => !supply) ?? false);
  if (!loose) return null;
  return (
    <div className="in-row">
      {SUPPLIES.map((id) => {
        const recipe = recipeNamed(store, id);
        return (
          recipe && (
            <button
              key={id}
              type="button"
              title={`${recipe.about}; lamps without a supply go on it`}
              onClick={() => putInPlace(store, recipe)}
            >
              Add a {recipe.name.toLowerCase()}
            </button>
          )
        );
      })}
    </div>
  );
}

interface PlugProps {
  readonly proposal: PowerProposal;
  readonly stale: boolean;
}

function PlugLikeThis({ proposal, stale }: PlugProps) {
  const store = useEditorStore();
  const plug = () => {
    const commands = proposal.moves.map(
      ({ lamp, to, phase }): Command => ({ do: 'change', id: lamp, patch: { supply: to, phase } }),
    );
    edit(store, commands, 'Plug lamps so that the supplies carry them');
  };
  return (
    <button type="button" disabled={stale} onClick={plug}>
      Plug them like that
    </button>
  );
}
