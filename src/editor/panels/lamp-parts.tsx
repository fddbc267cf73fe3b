import type { ExposureSheet } from '../../paperwork/exposure-sheet.ts';
import type { MeterReport } from '../../scene/meter/meter-scene.ts';
import { choose } from '../store/choose.ts';
import { documentShown, markChosen } from '../store/shown-scene.ts';
import { useEditor, useEditorStore } from '../store/use-editor.ts';
import { SmallRule } from './small-rule.tsx';

const NO_LAMPS = [] as const;

/** What each lamp puts on the chosen mark, by itself. */
export function LampParts({
  sheet,
  report,
}: {
  readonly sheet: ExposureSheet;
  readonly report: MeterReport;
}) {
  const store = useEditorStore();
  const chosen = useEditor(markChosen);
  const lamps = useEditor((state) => documentShown(state)?.lamps ?? NO_LAMPS);
  const index = Math.max(
    0,
    sheet.rows.findIndex((row) => row.id === chosen),
  );
  const row = sheet.rows[index]!;
  const nameOf = (id: string) => lamps.find((lamp) => lamp.id === id)?.name ?? id;

  return (
    <div className="table-scroll">
      <table className="readings-table parts" data-testid="lamp-parts">
        <caption>
          What makes up <bdi>{row.name}</bdi>
        </caption>
        <thead>
          <tr>
            <th scope="col">Lamp, by itself</th>
            <th scope="col" className="figure">
              {sheet.unit}
            </th>
            <th scope="col" className="figure">
              Stops
            </th>
            <th scope="col" className="rule-column">
              <span className="out-of-sight">Stops on the ruler</span>
            </th>
            <td className="rest" />
          </tr>
        </thead>
        <tbody>
          {row.lamps.map((lamp, i) => (
            <tr key={lamp.id} data-lamp={lamp.id}>
              <th scope="row">
                <button type="button" onClick={() => choose(store, [lamp.id])}>
                  <bdi>{nameOf(lamp.id)}</bdi>
                </button>
              </th>
              <td className="figure" data-field="reading">
                {lamp.reading}
              </td>
              <td className="figure" data-field="stops">
                {lamp.stops}
              </td>
              <td className="rule-column">
                <SmallRule stops={report.marks[index]!.lamps[i]!.stops} />
              </td>
              <td />
            </tr>
          ))}
          <tr data-lamp="sky">
            <th scope="row">
              <span className="plain-cell">Sky</span>
            </th>
            <td className="figure" data-field="reading">
              {row.sky}
            </td>
            <td />
            <td />
            <td />
          </tr>
        </tbody>
      </table>
      {sheet.allLight && (
        <p className="quiet" data-testid="of-which">
          Of it {row.bounce} {sheet.unit} by way of surfaces and glass, {row.haze} {sheet.unit} from the glow
          of haze.
        </p>
      )}
    </div>
  );
}
