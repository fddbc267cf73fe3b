import { memo, useMemo } from 'react';
import type { Lamp } from '../../scene/schema/lamp.ts';
import { lampSign } from '../figures/lamp-colour.ts';
import { documentShown } from '../store/shown-scene.ts';
import { useEditor } from '../store/use-editor.ts';
import type { LaneSize } from './lane-size.ts';
import { SKY } from './mixed-reading.ts';
import type { PlacedNeedle } from './rule-layout.ts';
import { rulePaths, shiftPath, stemsPath } from './rule-paths.ts';
import { type RuleScale, ticksOf } from './rule-scale.ts';
import { useRule } from './rule-state.ts';

const NO_LAMPS: readonly Lamp[] = [];
const NOWHERE: ReadonlyMap<string, number> = new Map();

interface RuleDrawingProps {
  readonly needles: readonly PlacedNeedle[];
  /** Those whose lanes are not scrolled away. */
  readonly inSight: readonly PlacedNeedle[];
  readonly scale: RuleScale;
  readonly height_px: number;
  readonly size: LaneSize;
}

/** Everything of the ruler that is not touched: ends, stops, needles with the parts of their lamps. */
export function RuleDrawing({ needles, inSight, scale, height_px, size }: RuleDrawingProps) {
  const lamps = useEditor((state) => documentShown(state)?.lamps ?? NO_LAMPS);
  const wants = useRule((state) => state.wants);
  const balance = useRule((state) => state.balance);
  const paths = useMemo(() => rulePaths(inSight, height_px, size), [inSight, height_px, size]);
  const stems = useMemo(() => stemsPath(needles, height_px, size), [needles, height_px, size]);
  const signOf = (id: string) => lampSign({ lamps: lamps as Lamp[] }, id);

  const wanted = useMemo(() => placesOf(wants, scale), [wants, scale]);
  const proposed = useMemo(
    () =>
      balance.kind === 'proposed'
        ? placesOf(new Map(balance.report.marks.map((mark) => [mark.id, mark.then_stops])), scale)
        : NOWHERE,
    [balance, scale],
  );

  return (
    <svg className="rule-drawing" width={scale.width_px} height={height_px} aria-hidden="true">
      <Grid scale={scale} height_px={height_px} />
      <path className="rule-band" d={paths.bands} />
      <path className="rule-stems" d={stems} />
      <path className="rule-proposed" d={shiftPath(inSight, proposed, height_px, size)} />
      <path className="rule-wanted" d={shiftPath(inSight, wanted, height_px, size)} />
      <path className="rule-arrows" d={paths.arrows} />
      {paths.pieces.map(({ of, d }) =>
        typeof of === 'string' ? (
          <path key={of} d={d} style={{ fill: signOf(of).fill }} />
        ) : (
          <path key={of === SKY ? 'sky' : 'rest'} className={of === SKY ? 'rule-sky' : 'rule-rest'} d={d} />
        ),
      )}
      <path className="rule-outlines" d={paths.outlines} />
      <g className="rule-initials">
        {paths.initials.map(({ of, x_px, y_px, anchor }, i) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: the list is replaced whole with every reading
          <text key={i} x={x_px} y={y_px + 3.5} textAnchor={anchor}>
            {signOf(of).initial}
          </text>
        ))}
      </g>
    </svg>
  );
}

function placesOf(stops: ReadonlyMap<string, number>, scale: RuleScale): ReadonlyMap<string, number> {
  return new Map([...stops].map(([mark, value]) => [mark, scale.x_px(value)]));
}

const Grid = memo(function Grid({ scale, height_px }: Pick<RuleDrawingProps, 'scale' | 'height_px'>) {
  const { range, width_px } = scale;
  const white_px = scale.x_px(range.white_stops);
  const floor_px = scale.x_px(range.floor_stops);
  return (
    <>
      <defs>
        <pattern id="rule-beyond" width="8" height="8" patternUnits="userSpaceOnUse">
          <path className="rule-beyond-lines" d="M-2 2L2-2M0 8L8 0M6 10L10 6" />
        </pattern>
      </defs>
      <rect className="rule-beyond" width={floor_px} height={height_px} />
      <rect className="rule-beyond" x={white_px} width={width_px - white_px} height={height_px} />
      {ticksOf(scale)
        .filter(({ kind }) => kind !== 'third')
        .map(({ stops, kind }) => (
          <line
            key={stops}
            className={kind === 'zero' ? 'rule-zero' : 'rule-grid'}
            x1={scale.x_px(stops)}
            x2={scale.x_px(stops)}
            y2={height_px}
          />
        ))}
      <line className="rule-end" x1={floor_px} x2={floor_px} y2={height_px} />
      <line className="rule-end" x1={white_px} x2={white_px} y2={height_px} />
    </>
  );
});
