import { Slider } from 'radix-ui';
import { useRef } from 'react';
import { QUANTITIES, type Quantity, type QuantityName } from '../../figures/quantity.ts';
import { beginGesture, endGesture } from '../../store/edits.ts';
import { useEditorStore } from '../../store/use-editor.ts';
import type { Slide } from '../field.ts';

interface FigureSliderProps {
  readonly label: string;
  readonly quantity: QuantityName;
  readonly value: number;
  readonly slide: Slide;
  readonly step: number;
  readonly spoken: string;
  readonly onChange: (value: number) => void;
}

const SLIDER_KEYS = /^(Arrow|Page|Home|End)/;
const RATIO_STEPS = 200;

/** A figure to slide. A whole slide, or a key held down, is one step of history. */
export function FigureSlider(props: FigureSliderProps) {
  const { label, quantity, value, slide, step, spoken, onChange } = props;
  const store = useEditorStore();
  const before = useRef(value);
  const end = () => endGesture(store);
  const { from, to, ratio } = slide;
  const span = ratio ? Math.log(to / from) : to - from;
  const placeOf = (figure: number) => (ratio ? Math.log(figure / from) : figure - from);
  const place = Math.min(span, Math.max(0, placeOf(value)));

  const put = (moved: number) => {
    const figure = ratio ? from * Math.exp(moved) : from + moved;
    onChange(niceFigure(quantity, figure, step, slide));
  };

  return (
    <Slider.Root
      className="slider"
      min={0}
      max={span}
      step={ratio ? span / RATIO_STEPS : step}
      value={[place]}
      onValueChange={([moved]) => put(moved!)}
      onPointerDown={() => {
        before.current = value;
        beginGesture(store, 'drag');
      }}
      onPointerUp={end}
      onPointerCancel={() => {
        // The finger was there to scroll.
        onChange(before.current);
        end();
      }}
    >
      <Slider.Track className="slider-track">
        <Slider.Range className="slider-range" />
      </Slider.Track>
      <Slider.Thumb
        className="slider-thumb"
        aria-label={label}
        aria-valuetext={spoken}
        onKeyDown={(event) => SLIDER_KEYS.test(event.key) && beginGesture(store, 'keys')}
        onKeyUp={end}
        onBlur={end}
      />
    </Slider.Root>
  );
}

/** A figure that people would dial: whole steps, whole fractions of a second. */
export function niceFigure(name: QuantityName, figure: number, step: number, { from, to }: Slide): number {
  const { nice }: Quantity = QUANTITIES[name];
  const dialled = nice ? nice(figure) : Math.round(figure / step) * step;
  return Number(Math.min(to, Math.max(from, dialled)).toFixed(6));
}
