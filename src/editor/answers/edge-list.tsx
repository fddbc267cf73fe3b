import { useState } from 'react';
import { signed } from '../../paperwork/signed-text.ts';
import type { OutlineReport, StretchReport } from '../../scene/separation/separation-report.ts';
import { SheetRows } from './sheet-rows.tsx';

/** So many tell where it merges; the rest is there when asked for. */
const FIRST = 5;

/** Under this a piece of outline is marginal at best. */
export const MARGINAL_stops = 1;

/** The pieces of one outline, that which stands out least first. */
export function EdgeList({ name, outline }: { readonly name: string; readonly outline: OutlineReport }) {
  const [all, setAll] = useState(false);
  const sorted = [...outline.stretches].sort((a, b) => Math.abs(a.stops) - Math.abs(b.stops));
  const shown = all ? sorted : sorted.slice(0, FIRST);
  return (
    <div className="edge-list">
      <SheetRows
        caption={`Edges of ${name}, the weakest first`}
        leftColumns={2}
        rows={[
          ['Edge', 'Behind it', 'Stops', '±', 'Long'],
          ...shown.map((stretch) => edgeRow(stretch, outline)),
        ]}
        isFault={(row) => Math.abs(shown[row]!.stops) < MARGINAL_stops}
      />
      {sorted.length > FIRST && (
        <button type="button" aria-expanded={all} onClick={() => setAll(!all)}>
          {all ? 'The weakest only' : `All ${sorted.length} edges`}
        </button>
      )}
    </div>
  );
}

function edgeRow(stretch: StretchReport, { uncertainty }: OutlineReport): string[] {
  const { part, side, behind, behindGlow, stops, numerical_stops, merged, length } = stretch;
  const background = behindGlow ? `haze before ${behind}` : behind;
  return [
    `${part} (${side})`,
    merged === null ? background : `${background}, both ${merged}`,
    signed(stops, 1),
    `±${Math.hypot(numerical_stops, uncertainty.input_stops).toFixed(1)}`,
    `${Math.round(100 * length)} %`,
  ];
}
