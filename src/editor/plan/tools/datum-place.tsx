import { useMemo, useState } from 'react';
import type { Vec3 } from '../../../core/math/vec3.ts';
import { DeskProvider, type PropertiesDesk } from '../../properties/desk.tsx';
import { TypedFigure } from '../../properties/fields/typed-figure.tsx';
import { limitsOf } from '../../properties/schema-limits.ts';
import { DOCUMENT } from '../../properties/subject.ts';
import { AXIS_NAMES } from '../drawing/projection.ts';
import { usePlan, usePlanStore } from '../use-plan.ts';

const AXES = [0, 1, 2] as const;
const ORIGIN: Vec3 = [0, 0, 0];

/** Where is measured from, in figures: pressed on the drawing or typed here. */
export function DatumPlace() {
  const plan = usePlanStore();
  const datum_m = usePlan((state) => state.datum_m);
  const setting = usePlan((state) => state.settingDatum);
  const [refused, setRefused] = useState<string | null>(null);
  const desk = useMemo<PropertiesDesk>(
    () => ({ ids: [], kind: DOCUMENT, set() {}, refuse: setRefused, refused: null }),
    [],
  );
  if (!datum_m && !setting) return null;
  const put = (axis: (typeof AXES)[number], typed: number) => {
    setRefused(null);
    const [x, y, z] = (datum_m ?? ORIGIN).with(axis, typed);
    plan.setState({ datum_m: [x!, y!, z!], settingDatum: false });
  };
  return (
    <DeskProvider value={desk}>
      <fieldset className="plan-datum-place">
        <legend className="out-of-sight">Measured from</legend>
        {datum_m === null && (
          <p>Press where to measure from: a thing, or a place on the ground; or type it.</p>
        )}
        {AXES.map((axis) => (
          <span key={axis} className="field-part">
            <span className="axis-name" aria-hidden="true">
              {AXIS_NAMES[axis]}
            </span>
            <TypedFigure
              label={`Measured from ${AXIS_NAMES[axis]}`}
              quantity="length"
              value={datum_m?.[axis]}
              placeholder=""
              limits={LIMITS}
              step={0.1}
              onChange={(typed) => typed !== undefined && put(axis, typed)}
            />
          </span>
        ))}
        <button type="button" onClick={() => plan.setState({ datum_m: null, settingDatum: false })}>
          Done
        </button>
        {refused && <p role="alert">Not taken: {refused}</p>}
      </fieldset>
    </DeskProvider>
  );
}

/** As far as a mark may stand. */
const LIMITS = limitsOf('marks', ['position_m', 0])!;
