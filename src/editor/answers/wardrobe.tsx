import { useEffect, useMemo } from 'react';
import { separationSheet } from '../../paperwork/separation-sheet.ts';
import type { SeparationReport } from '../../scene/separation/separation-report.ts';
import { edit } from '../store/edits.ts';
import { useEditorStore } from '../store/use-editor.ts';
import { Findings } from './findings.tsx';
import { SheetRows } from './sheet-rows.tsx';
import { useAnswer, useAnswers, useAnswersKeeper, useAsked } from './use-answers.ts';

interface WardrobeProps {
  readonly figure: string;
  readonly name: string;
  readonly report: SeparationReport;
}

/** A figure in every cloth of the library, the one that separates best first. */
export function Wardrobe({ figure, name, report }: WardrobeProps) {
  const store = useEditorStore();
  const keeper = useAnswersKeeper();
  const [asked, ask] = useAsked('wardrobe');
  const { shown, freshness } = useAnswer('wardrobe');
  const working = useAnswers((state) => (state.working?.to.kind === 'wardrobe' ? state.working.share : null));
  useEffect(() => {
    if (asked.figure !== figure) ask({ figure });
  }, [asked, ask, figure]);
  const found = shown?.answer?.figure === figure ? shown.answer : null;
  const what = useMemo(() => {
    const own = report.figures.filter(({ id }) => id === figure);
    if (!found) return null;
    const without = separationSheet({ ...report, figures: own });
    const sheet = separationSheet({ ...report, figures: own }, { wardrobe: new Map([[figure, found.rows]]) });
    return {
      rows: sheet.tables.at(-1)!.rows,
      sentence: sheet.findings.slice(without.findings.length),
      note: sheet.footer.filter((sentence) => !without.footer.includes(sentence)),
    };
  }, [found, figure, report]);
  const wear = (material: string, cloth: string) =>
    edit(
      store,
      { do: 'change', id: figure, patch: { upper: material, lower: material } },
      `${name} in ${cloth}`,
    );

  return (
    <section className="answer-part" aria-label={`${name} in other clothes`}>
      {working !== null && (
        <div className="answer-working">
          <progress value={working} max={1} aria-label={`Dressing ${name}`} />
          <button type="button" onClick={() => keeper.callOff()}>
            Stop
          </button>
        </div>
      )}
      {working === null && freshness !== 'fresh' && (
        <div className="note">
          <p>{found ? 'This is of the scene as it was.' : `Each cloth is lit anew on ${name}.`}</p>
          <button
            type="button"
            onClick={() => {
              ask({ figure });
              keeper.askAgain();
            }}
          >
            Work it out
          </button>
        </div>
      )}
      {found && what && (
        <>
          <Findings sentences={what.sentence} label={`What reads best on ${name}`} />
          <SheetRows
            caption={`${name} in other clothes, the best first`}
            leftColumns={1}
            rows={what.rows}
            action={(row) => {
              const { material, name: cloth, worn } = found.rows[row]!;
              return (
                <button
                  type="button"
                  disabled={worn}
                  aria-label={`${name}: wear ${cloth}`}
                  onClick={() => wear(material, cloth)}
                >
                  {worn ? 'Worn' : 'Wear it'}
                </button>
              );
            }}
          />
          {what.note.map((sentence) => (
            <p key={sentence} className="quiet">
              {sentence}
            </p>
          ))}
        </>
      )}
    </section>
  );
}
