import { useMemo, useState } from 'react';
import { separationSheet } from '../../paperwork/separation-sheet.ts';
import type { FigureSeparation } from '../../scene/separation/separation-report.ts';
import { choose } from '../store/choose.ts';
import { useEditor, useEditorStore } from '../store/use-editor.ts';
import type { AnswerOf } from '../worker/answer-kinds.ts';
import { AnswerPanel } from './answer-panel.tsx';
import { EdgeList } from './edge-list.tsx';
import { Findings } from './findings.tsx';
import { useLacking } from './lacking.ts';
import { MonochromeChoice } from './monochrome-choice.tsx';
import { OutlineDrawing } from './outline-drawing.tsx';
import { useAnswer } from './use-answers.ts';
import { Wardrobe } from './wardrobe.tsx';

/** How each figure's outline stands out from what is behind it, and what would make it stand out more. */
export function Separation() {
  const inUse = useAnswer('separation');
  const found = inUse.shown?.answer;
  const sheet = useMemo(() => found && separationSheet(found.report), [found]);
  // One at a time: every cloth is lit anew.
  const [dressed, dress] = useState<string | null>(null);
  return (
    <AnswerPanel
      name="Separation"
      kind="separation"
      inUse={inUse}
      heading={sheet?.heading}
      lacking={useLacking('separation')}
      moreToCome="reading the next outline…"
      conventions={sheet?.footer}
    >
      {found && (
        <>
          <ul className="cards">
            {found.report.figures.map((figure) => (
              <FigureCard
                key={figure.id}
                figure={figure}
                found={found}
                stale={inUse.freshness !== 'fresh'}
                dressing={dressed === figure.id}
                dress={(on) => dress(on ? figure.id : null)}
              />
            ))}
          </ul>
          <MonochromeChoice found={found} />
        </>
      )}
    </AnswerPanel>
  );
}

interface FigureCardProps {
  readonly figure: FigureSeparation;
  readonly found: AnswerOf<'separation'>;
  readonly stale: boolean;
  readonly dressing: boolean;
  readonly dress: (on: boolean) => void;
}

function FigureCard({ figure, found, stale, dressing, dress }: FigureCardProps) {
  const store = useEditorStore();
  const chosen = useEditor((state) => state.chosen.at(-1) === figure.id);
  const { outline } = figure;
  const pieces = found.outlines.find((one) => one.figure === figure.id)?.pieces ?? [];
  const { findings } = separationSheet({ ...found.report, figures: [figure] });
  return (
    <li className={outline?.merges ? 'card merging' : 'card'}>
      <div className="card-head">
        <button
          type="button"
          className="lamp-choice"
          aria-pressed={chosen}
          onClick={() => choose(store, [figure.id])}
        >
          <bdi>{figure.name}</bdi>
        </button>
        {outline && (
          <>
            <span className="tags">{outline.merges && <span className="tag loud">merges</span>}</span>
            <span className="card-figure">
              {Math.round(100 * outline.share_over_1_stop)} %{' '}
              <span className="quiet">of the outline over 1 stop</span>
            </span>
          </>
        )}
      </div>
      {outline && (
        <div className="outline-beside">
          <OutlineDrawing name={figure.name} pieces={pieces} worst={outline.worst} />
          <EdgeList name={figure.name} outline={outline} />
        </div>
      )}
      <Findings sentences={findings} label={`What is to be known of ${figure.name}`} />
      {outline && (
        <button
          type="button"
          aria-expanded={dressing}
          disabled={stale && !dressing}
          onClick={() => dress(!dressing)}
        >
          {dressing ? 'Put the other clothes away' : 'Try other clothes'}
        </button>
      )}
      {dressing && <Wardrobe figure={figure.id} name={figure.name} report={found.report} />}
    </li>
  );
}
