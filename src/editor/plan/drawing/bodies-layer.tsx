import { memo, useEffect, useMemo, useState } from 'react';
import type { Figure } from '../../../scene/schema/figure.ts';
import type { Solid } from '../../../scene/schema/solid.ts';
import { documentShown } from '../../store/shown-scene.ts';
import { useEditor } from '../../store/use-editor.ts';
import { isHidden } from '../plan-state.ts';
import { type BodyOutline, bodyOutline } from '../shapes/body-outline.ts';
import { learnMeshes, meshOutline } from '../shapes/mesh-outline.ts';
import { usePlan } from '../use-plan.ts';
import type { Projection } from './projection.ts';
import { ThingGroup } from './thing-group.tsx';

const NO_SOLIDS: readonly Solid[] = [];
const NO_FIGURES: readonly Figure[] = [];

/** Solids and vehicles, what lies lower or further off first, and people over them. */
export function BodiesLayer() {
  const projection = usePlan((state) => state.projection);
  const solids = useEditor((state) => documentShown(state)?.solids ?? NO_SOLIDS);
  const figures = useEditor((state) => documentShown(state)?.figures ?? NO_FIGURES);
  const hidden = usePlan((state) => state.hidden);
  const hiddenKinds = usePlan((state) => state.hiddenKinds);
  const meshes = useMeshes(projection, solids);
  const ordered = useMemo(() => farthestFirst(solids, projection), [solids, projection]);
  const seen = { hidden, hiddenKinds };
  return (
    <>
      {ordered
        .filter(({ id }) => !isHidden(seen, id, 'solids'))
        .map((solid) => (
          <SolidDrawing
            key={solid.id}
            solid={solid}
            projection={projection}
            meshes={solid.shape === 'mesh' ? meshes : 0}
          />
        ))}
      {figures
        .filter(({ id }) => !isHidden(seen, id, 'figures'))
        .map((figure) => (
          <FigureDrawing key={figure.id} figure={figure} projection={projection} />
        ))}
    </>
  );
}

/** Counts up when hulls of meshes have come to be known. */
function useMeshes(projection: Projection, solids: readonly Solid[]): number {
  const stage = useEditor((state) => state.stage);
  const [known, setKnown] = useState(0);
  useEffect(() => {
    if (!stage || !solids.some(({ shape }) => shape === 'mesh')) return;
    learnMeshes(solids, stage, projection);
    setKnown((count) => count + 1);
  }, [stage, projection, solids]);
  return known;
}

const SolidDrawing = memo(function SolidDrawing(props: {
  readonly solid: Solid;
  readonly projection: Projection;
  readonly meshes: number;
}) {
  const { solid, projection } = props;
  const outline = solid.shape === 'mesh' ? meshOutline(solid, projection) : bodyOutline(solid, projection);
  return (
    <ThingGroup
      id={solid.id}
      kind="solids"
      name={solid.name ?? solid.id}
      position_m={solid.position_m}
      className={`plan-body ${solid.shape === 'pane' ? 'glass' : toneOf(solid, projection)}`}
    >
      {outline && <Outline outline={outline} />}
    </ThingGroup>
  );
});

const FigureDrawing = memo(function FigureDrawing(props: {
  readonly figure: Figure;
  readonly projection: Projection;
}) {
  const { figure, projection } = props;
  return (
    <ThingGroup
      id={figure.id}
      kind="figures"
      name={figure.name ?? figure.id}
      position_m={figure.position_m}
      className="plan-figure"
    >
      <Outline outline={bodyOutline(figure, projection)} />
    </ThingGroup>
  );
});

function Outline({ outline }: { readonly outline: BodyOutline }) {
  return (
    <>
      <path className="plan-outline" d={outline.body} />
      {outline.openings && <path className="plan-opening" d={outline.openings} />}
      {outline.panes && <path className="plan-pane" d={outline.panes} />}
    </>
  );
}

/** How near to the viewer a body comes: from above its top, in elevation its near end. */
function nearness(solid: Solid, projection: Projection): number {
  const reach = (other: Projection, of: (point: readonly [number, number]) => number) =>
    bodyOutline(solid, other).points.reduce((most, point) => Math.max(most, of(point)), -Infinity);
  switch (projection) {
    case 'plan':
      return reach('along-x', ([, v]) => -v);
    case 'along-x':
      return reach('plan', ([, v]) => v);
    case 'along-z':
      return reach('plan', ([u]) => -u);
  }
}

/** From above, what lies under the ground that people stand on is darkest, then the ground, then what stands on it. */
const GROUND_m = 0.06;

function toneOf(solid: Solid, projection: Projection): 'low' | 'ground' | 'high' {
  if (projection !== 'plan') return 'high';
  const top_m = nearness(solid, 'plan');
  return top_m < -GROUND_m ? 'low' : top_m <= GROUND_m ? 'ground' : 'high';
}

function farthestFirst(solids: readonly Solid[], projection: Projection): readonly Solid[] {
  const order = new Map(solids.map((solid) => [solid, nearness(solid, projection)]));
  return [...solids].sort((a, b) => order.get(a)! - order.get(b)!);
}
