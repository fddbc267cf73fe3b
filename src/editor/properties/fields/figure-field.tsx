import { memo } from 'react';
import type { Path } from '../../../scene/problems/problem.ts';
import { figureText } from '../../figures/quantity.ts';
import { reachOf } from '../../panels/reach.ts';
import { documentShown } from '../../store/shown-scene.ts';
import { useEditor } from '../../store/use-editor.ts';
import { MIXED, useDesk, useFieldValue, useTaste } from '../desk.tsx';
import type { FigureField, Slide } from '../field.ts';
import { limitsOf } from '../schema-limits.ts';
import { FieldRow } from './field-row.tsx';
import { FigureSlider } from './figure-slider.tsx';
import { TypedFigure } from './typed-figure.tsx';

/** One figure: to type and, where a range helps, to slide. */
export const FigureRow = memo(function FigureRow({
  field,
  at,
}: {
  readonly field: FigureField;
  readonly at: Path;
}) {
  const { label, help, quantity, step, absent, beside } = field;
  const desk = useDesk();
  const taste = useTaste();
  const value = useFieldValue(at);
  const figure = typeof value === 'number' ? value : undefined;
  const slide = useSlide(field, figure);
  const said = figure === undefined ? undefined : beside?.(figure);
  const start = figure ?? (absent === undefined ? undefined : absentFigure(field));

  const slides = slide !== undefined && start !== undefined && value !== MIXED;

  return (
    <FieldRow label={label} path={at} help={help} beside={said} layout={slides ? 'slide' : 'figure'}>
      {slides ? (
        <FigureSlider
          label={label}
          quantity={quantity}
          value={start}
          slide={slide}
          step={step}
          spoken={[figureText(quantity, start, taste), said].filter(Boolean).join(', ')}
          onChange={(moved) => desk.set(at, moved)}
        />
      ) : null}
      <TypedFigure
        label={label}
        quantity={quantity}
        value={figure}
        placeholder={value === MIXED ? 'several' : (absent ?? '')}
        limits={limitsOf(desk.kind, at)!}
        step={step}
        onChange={(typed) => desk.set(at, typed)}
      />
    </FieldRow>
  );
});

/** What an empty field holds, where that is a figure. */
function absentFigure({ absent, quantity }: FigureField): number | undefined {
  const figure = Number(absent);
  if (!Number.isFinite(figure)) return undefined;
  return quantity === 'percent' ? figure / 100 : figure;
}

/** As far as things stand along the axis, and never short of the value itself. */
function useSlide({ slide }: FigureField, value: number | undefined): Slide | undefined {
  const axis = slide && 'reach' in slide ? slide.reach : undefined;
  const from = useEditor((state) => (axis === undefined ? 0 : reachOf(documentShown(state)).from_m[axis]));
  const to = useEditor((state) => (axis === undefined ? 0 : reachOf(documentShown(state)).to_m[axis]));
  if (!slide || 'reach' in slide) {
    if (axis === undefined) return undefined;
    return { from: Math.min(from, Math.floor(value ?? 0)), to: Math.max(to, Math.ceil(value ?? 0)) };
  }
  return slide;
}
