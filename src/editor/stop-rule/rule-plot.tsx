import { memo, useEffect, useMemo, useRef, useState } from 'react';
import { DEFAULT_TONE_RANGE } from '../../core/picture/tone-curve.ts';
import type { MeterReport } from '../../scene/meter/meter-scene.ts';
import { markChosen } from '../store/shown-scene.ts';
import { useEditor } from '../store/use-editor.ts';
import { FreshFigures } from './fresh-figures.tsx';
import { useLaneSize } from './lane-size.ts';
import { type MixedReading, mixedReading } from './mixed-reading.ts';
import { NeedleList } from './needle-list.tsx';
import { RuleDrawing } from './rule-drawing.tsx';
import { layoutRule, type RuleLayout } from './rule-layout.ts';
import { ruleScale } from './rule-scale.ts';
import { RuleStrip } from './rule-strip.tsx';
import { textWidth_px } from './text-width.ts';
import { useSize } from './use-size.ts';

/** Between the number of a mark and its words. */
const NUMBER_px = 34;
/** Labels keep their width while the figures change. */
const WIDEST_FIGURES = '\u22120⅔ 00.00';

/** A ruler narrower than this is one that is still being laid out. */
const LEAST_px = 60;
/** So much of a lane may be cut at the top: its needle is still whole. */
const SLACK_px = 5;

/** The ruler with a needle for every mark, in lanes that scroll where they are many. */
export const RulePlot = memo(function RulePlot({ report }: { readonly report: MeterReport }) {
  const moving = useEditor((state) => state.gesture !== null);
  const muted = useEditor((state) => state.muted);
  const chosen = useEditor(markChosen);
  const unit = useEditor((state) => state.unit);
  const size = useLaneSize();
  const { lane_px } = size;
  const scroller = useRef<HTMLDivElement>(null);
  const { width_px, height_px } = useSize(scroller);
  const before = useRef<RuleLayout | null>(null);
  const [scrolled, setScrolled] = useState(0);

  const readings = useMemo(
    () => report.marks.map((mark) => mixedReading(mark, report.exposure, muted)),
    [report, muted],
  );
  const scale = useMemo(() => ruleScale(width_px, DEFAULT_TONE_RANGE), [width_px]);
  const layout = useMemo(() => {
    const figures_px = textWidth_px(`${WIDEST_FIGURES} ${unit}`, 700, 14);
    const labelWidth_px = ({ mark }: MixedReading) =>
      NUMBER_px + Math.max(textWidth_px(mark.name, 400, 14), figures_px);
    return layoutRule({
      readings,
      scale,
      labelWidth_px,
      lanesInSight: Math.floor(height_px / lane_px),
      moving,
      before: before.current,
    });
  }, [readings, scale, height_px, lane_px, unit, moving]);
  useEffect(() => {
    before.current = layout;
  }, [layout]);

  const inSight = useMemo(() => {
    const lowest = scrolled - 1;
    const highest = scrolled + Math.ceil(height_px / lane_px) + 1;
    return layout.needles.filter(({ lane }) => lane >= lowest && lane <= highest);
  }, [layout, scrolled, height_px, lane_px]);
  const above = layout.needles.filter(
    ({ lane }) => (lane + 1 - scrolled) * lane_px > height_px + SLACK_px,
  ).length;
  const inner_px = Math.max(height_px, layout.lanes * lane_px);
  return (
    <FreshFigures className="rule-body">
      <div
        className="rule-lanes"
        ref={scroller}
        // Counted from the ruler up, in lanes.
        onScroll={({ currentTarget }) => setScrolled(Math.floor(-currentTarget.scrollTop / lane_px))}
      >
        <div className="rule-lanes-inside" style={{ height: inner_px }}>
          {width_px > LEAST_px && (
            <>
              <RuleDrawing
                needles={layout.needles}
                inSight={inSight}
                scale={scale}
                height_px={inner_px}
                size={size}
              />
              <NeedleList
                needles={layout.needles}
                inSight={inSight}
                height_px={inner_px}
                lane_px={lane_px}
                chosen={chosen}
                unit={unit}
              />
            </>
          )}
        </div>
      </div>
      {above > 0 && <p className="rule-above">{above} more above</p>}
      {width_px > LEAST_px && <RuleStrip needles={layout.needles} scale={scale} chosen={chosen} />}
    </FreshFigures>
  );
});
