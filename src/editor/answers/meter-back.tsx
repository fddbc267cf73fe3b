import { useMemo } from 'react';
import { readingsSheet } from '../../paperwork/readings-sheet.ts';
import type { ReadingResidual } from '../../scene/readings/corrections.ts';
import { edit } from '../store/edits.ts';
import { useEditor, useEditorStore } from '../store/use-editor.ts';
import { AnswerPanel } from './answer-panel.tsx';
import { Findings } from './findings.tsx';
import { useLacking } from './lacking.ts';
import { MeterForm } from './meter-form.tsx';
import { namesOfThings } from './names-of-things.ts';
import { SheetRows } from './sheet-rows.tsx';
import { useAnswer } from './use-answers.ts';

/** What the meter read on the night: taken down, what it corrects, and what it cannot tell. */
export function MeterBack() {
  const inUse = useAnswer('readings');
  const document = useEditor((state) => state.scene?.document);
  const openings = useEditor((state) => state.openings);
  const report = inUse.shown?.answer;
  // The words are for the scene that the report is of.
  const of = inUse.shown?.to.scene.document;
  const sheet = useMemo(() => report && of && readingsSheet(report, namesOfThings(of)), [report, of]);
  const lacking = useLacking('readings');
  return (
    <AnswerPanel
      name="Meter back"
      kind="readings"
      inUse={inUse}
      heading={sheet?.heading}
      lacking={lacking}
      settings={document && <MeterForm key={openings} document={document} />}
      conventions={sheet?.footer}
    >
      {report && sheet && (
        <>
          <Findings sentences={sheet.findings} label="What the readings say, and cannot tell" />
          {sheet.tables.map(({ rows, leftColumns }, i) => (
            <SheetRows
              key={rows[0]![0]}
              caption={i === 0 ? 'Readings against plan and prediction' : 'What they correct'}
              rows={rows}
              leftColumns={leftColumns}
              isFault={(row) => i === 0 && report.readings[row]!.outlier}
              {...(i === 0 ? { action: (row: number) => <Strike reading={report.readings[row]!} /> } : {})}
            />
          ))}
          {report.unused.map(({ id }) => (
            <StrikeButton key={id} id={id} name={id} />
          ))}
        </>
      )}
    </AnswerPanel>
  );
}

function Strike({ reading: { id, name } }: { readonly reading: ReadingResidual }) {
  return <StrikeButton id={id} name={name} />;
}

function StrikeButton({ id, name }: { readonly id: string; readonly name: string }) {
  const store = useEditorStore();
  const there = useEditor((state) => state.scene?.document.readings?.some((one) => one.id === id) ?? false);
  return (
    <button
      type="button"
      disabled={!there}
      aria-label={`Strike out reading ${name}`}
      onClick={() => edit(store, { do: 'remove', id }, `Strike out reading ${name}`)}
    >
      Strike out
    </button>
  );
}
