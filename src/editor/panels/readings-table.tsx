import type { ExposureSheet } from '../../paperwork/exposure-sheet.ts';
import type { MeterReport } from '../../scene/meter/meter-scene.ts';
import { choose } from '../store/choose.ts';
import { markChosen } from '../store/shown-scene.ts';
import { useEditor, useEditorStore } from '../store/use-editor.ts';
import { SmallRule, SmallRuleScale } from './small-rule.tsx';

export function ReadingsTable({
  sheet,
  report,
}: {
  readonly sheet: ExposureSheet;
  readonly report: MeterReport;
}) {
  const store = useEditorStore();
  const chosen = useEditor(markChosen);

  return (
    <div className="table-scroll">
      <table className="readings-table">
        <caption className="out-of-sight">Meter readings at the marks</caption>
        <thead>
          <tr>
            <th scope="col">Mark</th>
            <th scope="col" className="figure">
              {sheet.unit}
            </th>
            <th scope="col" className="figure">
              Stops
            </th>
            <th scope="col" className="rule-column">
              <SmallRuleScale />
            </th>
            <th scope="col" className="figure narrow">
              Meter
            </th>
            <th scope="col" className="figure narrow">
              <abbr title="uncertainty in stops">±</abbr>
            </th>
            <th scope="col" className="figure colour">
              Colour
            </th>
          </tr>
        </thead>
        <tbody>
          {sheet.rows.map((row, i) => {
            const { stops, uncertainty } = report.marks[i]!;
            return (
              <tr key={row.id} data-mark={row.id} className={row.id === chosen ? 'chosen' : undefined}>
                <th scope="row">
                  <button
                    type="button"
                    aria-pressed={row.id === chosen}
                    onClick={() => choose(store, [row.id])}
                  >
                    <span className="mark-number">{i + 1}</span>
                    <span className="mark-words">
                      <bdi data-field="name">{row.name}</bdi>
                      <span className="quiet" data-field="receptor">
                        {row.receptor}
                      </span>
                    </span>
                  </button>
                </th>
                <td className="figure big" data-field="reading">
                  {row.reading}
                </td>
                <td className="figure big" data-field="stops">
                  {row.stops}
                </td>
                <td className="rule-column">
                  <SmallRule
                    stops={stops}
                    plusMinus_stops={Math.hypot(uncertainty.numerical_stops, uncertainty.input_stops)}
                  />
                </td>
                <td className="figure" data-field="fNumber">
                  {row.fNumber}
                </td>
                <td className="figure" data-field="plusMinus">
                  {row.plusMinus}
                </td>
                <td className="figure" data-field="colour">
                  {row.colour}
                </td>
              </tr>
            );
          })}
        </tbody>
      </table>
    </div>
  );
}
