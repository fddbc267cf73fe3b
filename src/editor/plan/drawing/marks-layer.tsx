import { memo } from 'react';
import type { Vec3 } from '../../../core/math/vec3.ts';
import { meterPoint } from '../../../scene/meter/meter-scene.ts';
import { SceneError } from '../../../scene/problems/problem.ts';
import type { Camera } from '../../../scene/schema/camera.ts';
import type { SceneDocument } from '../../../scene/schema/document.ts';
import type { Mark } from '../../../scene/schema/mark.ts';
import { cameraShown, documentShown, markChosen } from '../../store/shown-scene.ts';
import { useEditor } from '../../store/use-editor.ts';
import { isHidden } from '../plan-state.ts';
import { usePlan } from '../use-plan.ts';
import { flat, type Projection } from './projection.ts';
import { ThingGroup } from './thing-group.tsx';

/** Past these only the chosen one carries its number. */
const MOST_NUMBERED = 60;

/** Marks as their number in the table of readings, with a stroke the way the receptor faces. */
export function MarksLayer() {
  const document = useEditor(documentShown);
  const camera = useEditor(cameraShown);
  const lit = useEditor(markChosen);
  const projection = usePlan((state) => state.projection);
  const hidden = usePlan((state) => state.hidden);
  const hiddenKinds = usePlan((state) => state.hiddenKinds);
  const marks = document?.marks ?? [];
  return marks.map((mark, i) => {
    if (isHidden({ hidden, hiddenKinds }, mark.id, 'marks')) return null;
    const [du, dv] = flat(facingOf(document!, mark, camera), projection);
    return (
      <MarkDrawing
        key={mark.id}
        mark={mark}
        number={i + 1}
        lit={lit === mark.id}
        numbered={marks.length <= MOST_NUMBERED || lit === mark.id}
        du={du}
        dv={dv}
        projection={projection}
      />
    );
  });
}

function facingOf(document: SceneDocument, mark: Mark, camera: Camera | undefined): Vec3 {
  if (typeof mark.facing !== 'object' && !camera) return [0, 0, 0];
  try {
    return meterPoint(document, mark, camera!).facing;
  } catch (error) {
    // A mark that stands on what it faces looks nowhere.
    if (!(error instanceof SceneError)) throw error;
    return [0, 0, 0];
  }
}

const DISC_px = 9.5;
const STROKE_px = 20;

const MarkDrawing = memo(function MarkDrawing(props: {
  readonly mark: Mark;
  readonly number: number;
  readonly lit: boolean;
  readonly numbered: boolean;
  readonly du: number;
  readonly dv: number;
  readonly projection: Projection;
}) {
  const { mark, number, lit, numbered, du, dv, projection } = props;
  const [u, v] = flat(mark.position_m, projection);
  const name = mark.name ?? mark.id;
  return (
    <ThingGroup
      id={mark.id}
      kind="marks"
      name={name}
      position_m={mark.position_m}
      className={lit ? 'plan-mark lit' : 'plan-mark'}
      transform={`translate(${u} ${v})`}
      words={
        numbered && (
          <g className="plan-sign">
            <text className="plan-number" y={4}>
              {number}
            </text>
          </g>
        )
      }
    >
      <g className="plan-sign">
        <circle className="plan-halo" r={22} />
        <path className="plan-facing" d={`M0 0L${STROKE_px * du} ${STROKE_px * dv}`} />
        <circle className="plan-disc" r={numbered ? DISC_px : 4} />
      </g>
    </ThingGroup>
  );
});

/** The mark that is lit once more, over those that lie on it. */
export function LitMark() {
  const id = useEditor(markChosen);
  const marks = useEditor((state) => documentShown(state)?.marks);
  const projection = usePlan((state) => state.projection);
  const hidden = usePlan((state) => state.hidden);
  const hiddenKinds = usePlan((state) => state.hiddenKinds);
  const number = marks?.findIndex((mark) => mark.id === id) ?? -1;
  if (!marks || number < 0 || isHidden({ hidden, hiddenKinds }, marks[number]!.id, 'marks')) return null;
  const [u, v] = flat(marks[number]!.position_m, projection);
  return (
    <g className="plan-mark lit" transform={`translate(${u} ${v})`}>
      <g className="plan-sign">
        <circle className="plan-disc" r={DISC_px} />
        <text className="plan-number" y={4}>
          {number + 1}
        </text>
      </g>
    </g>
  );
}
