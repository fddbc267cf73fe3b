import { memo } from 'react';
import type { HazeRegionSettings } from '../../../scene/schema/document.ts';
import type { Path } from '../../../scene/schema/path.ts';
import { numberText } from '../../figures/number-text.ts';
import { documentShown } from '../../store/shown-scene.ts';
import { useEditor } from '../../store/use-editor.ts';
import type { KeepOutArea } from '../arrange/change-things.ts';
import { hazeBoxId } from '../arrange/plan-things.ts';
import { isHidden } from '../plan-state.ts';
import { hazeBoxRing } from '../shapes/haze-box.ts';
import { linePath, ringPath } from '../shapes/path-data.ts';
import { pathTicks } from '../shapes/path-ticks.ts';
import { usePlan, useScaleStep } from '../use-plan.ts';
import { flat, type Projection } from './projection.ts';
import { ThingGroup } from './thing-group.tsx';

const NO_AREAS: readonly KeepOutArea[] = [];
const NO_REGIONS: readonly HazeRegionSettings[] = [];
const NO_PATHS: readonly Path[] = [];

/** What has no body of its own: areas to keep out of, boxes of haze, and paths with the time along them. */
export function GroundLayer() {
  const projection = usePlan((state) => state.projection);
  const areas = useEditor((state) => documentShown(state)?.site?.keepOut ?? NO_AREAS);
  const regions = useEditor((state) => documentShown(state)?.haze?.regions ?? NO_REGIONS);
  const paths = useEditor((state) => documentShown(state)?.paths ?? NO_PATHS);
  const scale_px_m = useScaleStep();
  const hidden = usePlan((state) => state.hidden);
  const hiddenKinds = usePlan((state) => state.hiddenKinds);
  const seen = { hidden, hiddenKinds };
  return (
    <>
      {regions.map((region, i) => {
        const id = hazeBoxId(i);
        if (isHidden(seen, id, 'haze')) return null;
        return <HazeBox key={id} id={id} number={i + 1} region={region} projection={projection} />;
      })}
      {areas.map((area) =>
        isHidden(seen, area.id, 'keepOut') ? null : (
          <KeepOutDrawing key={area.id} area={area} projection={projection} />
        ),
      )}
      {paths.map((path) =>
        isHidden(seen, path.id, 'paths') ? null : (
          <PathDrawing key={path.id} path={path} projection={projection} scale_px_m={scale_px_m} />
        ),
      )}
    </>
  );
}

const HazeBox = memo(function HazeBox(props: {
  readonly id: string;
  readonly number: number;
  readonly region: HazeRegionSettings;
  readonly projection: Projection;
}) {
  const { id, number, region, projection } = props;
  return (
    <ThingGroup
      id={id}
      kind="haze"
      name={region.name ?? `Haze box ${number}`}
      position_m={region.position_m}
      className="plan-haze"
    >
      <path d={ringPath(hazeBoxRing(region, projection))} />
    </ThingGroup>
  );
});

const KeepOutDrawing = memo(function KeepOutDrawing(props: {
  readonly area: KeepOutArea;
  readonly projection: Projection;
}) {
  const { area, projection } = props;
  const points = area.outline_m.map(([x, z]) => flat([x, 0, z], projection));
  const [x, z] = area.outline_m[0]!;
  return (
    <ThingGroup
      id={area.id}
      kind="keepOut"
      name={area.name ?? area.id}
      position_m={[x, 0, z]}
      className="plan-keep-out"
    >
      <path d={ringPath(points)} />
    </ThingGroup>
  );
});

/** Room for the time beside each. */
const TICKS_px = 46;

const PathDrawing = memo(function PathDrawing(props: {
  readonly path: Path;
  readonly projection: Projection;
  readonly scale_px_m: number;
}) {
  const { path, projection, scale_px_m } = props;
  const points = path.points.map(({ position_m }) => flat(position_m, projection));
  return (
    <ThingGroup
      id={path.id}
      kind="paths"
      name={path.name ?? path.id}
      position_m={path.points[0]!.position_m}
      className="plan-path"
      words={pathTicks(path, TICKS_px / scale_px_m).map(({ t_s, position_m }) => {
        const [u, v] = flat(position_m, projection);
        return (
          <g key={t_s} transform={`translate(${u} ${v})`}>
            <g className="plan-sign">
              <circle r={3} />
              <text y={-7} textAnchor="middle">
                {`${numberText(t_s, 1)} s`}
              </text>
            </g>
          </g>
        );
      })}
    >
      <path className="plan-path-grip" d={linePath(points)} />
      <path d={linePath(points)} />
    </ThingGroup>
  );
});
