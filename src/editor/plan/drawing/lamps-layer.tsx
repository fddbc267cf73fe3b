import { memo, useMemo } from 'react';
import { lampFrame } from '../../../core/lamps/lamp-frame.ts';
import { distance, type Vec3 } from '../../../core/math/vec3.ts';
import type { Lamp } from '../../../scene/schema/lamp.ts';
import { type LampSign, lampSigns } from '../../figures/lamp-colour.ts';
import { documentShown } from '../../store/shown-scene.ts';
import { useEditor } from '../../store/use-editor.ts';
import type { LampLook } from '../../worker/reading-desk.ts';
import { isHidden, LEVELS_m, type Level } from '../plan-state.ts';
import { beamAtHeight, beamOutline } from '../shapes/beam-outline.ts';
import { linePath, ringPath } from '../shapes/path-data.ts';
import { useEdgeStep, usePlan, useScaleStep } from '../use-plan.ts';
import { type NameSide, nameSides, shortened } from './names.ts';
import { type Flat, flat, type Projection } from './projection.ts';
import { ThingGroup } from './thing-group.tsx';

const NO_LAMPS: readonly Lamp[] = [];
/** Past these only what is chosen carries its name and its beam: hundreds would cover the drawing. */
const MOST_NAMED = 16;

/** Edges of beams, to lie under everything that stands about. */
export function BeamsLayer() {
  const lamps = useLamps();
  const looks = useEditor((state) => state.looks);
  const chosen = useEditor((state) => state.chosen);
  const projection = usePlan((state) => state.projection);
  const level = usePlan((state) => state.level);
  return lamps.map((lamp) => {
    const look = looks.get(lamp.id);
    const isChosen = chosen.includes(lamp.id);
    if (!look || lamp.on === false || (!isChosen && lamps.length > MOST_NAMED)) return null;
    return (
      <Beam key={lamp.id} lamp={lamp} look={look} chosen={isChosen} projection={projection} level={level} />
    );
  });
}

function useLamps(): readonly Lamp[] {
  const lamps = useEditor((state) => documentShown(state)?.lamps ?? NO_LAMPS);
  const hidden = usePlan((state) => state.hidden);
  const hiddenKinds = usePlan((state) => state.hiddenKinds);
  return useMemo(
    () => lamps.filter(({ id }) => !isHidden({ hidden, hiddenKinds }, id, 'lamps')),
    [lamps, hidden, hiddenKinds],
  );
}

/** A beam is drawn a little beyond what it is aimed at, its edge on a level plane as far as that could matter. */
const BEYOND_AIM = 1.1;
const LEVEL_REACH = 4;
const LEVEL_REACH_MORE_m = 10;

const Beam = memo(function Beam(props: {
  readonly lamp: Lamp;
  readonly look: LampLook;
  readonly chosen: boolean;
  readonly projection: Projection;
  readonly level: Level;
}) {
  const { lamp, look, chosen, projection, level } = props;
  const frame = lampFrame(lamp.position_m, lamp.aim_m, lamp.roll_deg);
  const aim_m = distance(lamp.position_m, lamp.aim_m);
  const outline = (angles: LampLook['beam']) =>
    ringPath(beamOutline(frame, angles, BEYOND_AIM * aim_m, projection));
  const onLevel = (angles: LampLook['beam']) =>
    beamAtHeight(frame, angles, LEVELS_m[level], LEVEL_REACH * aim_m + LEVEL_REACH_MORE_m)
      .map(({ points, closed }) => (closed ? ringPath(points) : linePath(points)))
      .join('');
  return (
    <g className={chosen ? 'plan-beam chosen' : 'plan-beam'}>
      <path className="plan-beam-half" d={outline(look.beam)} />
      {chosen && <path className="plan-beam-tenth" d={outline(look.field)} />}
      {chosen && projection === 'plan' && (
        <>
          <path className="plan-level-half" d={onLevel(look.beam)} />
          <path className="plan-level-tenth" d={onLevel(look.field)} />
        </>
      )}
    </g>
  );
});

/** Lamps as signs about their point, each in its colour with its initial. */
export function LampsLayer() {
  const all = useEditor((state) => documentShown(state)?.lamps ?? NO_LAMPS);
  const lamps = useLamps();
  const signs = lampSigns(all);
  const chosen = useEditor((state) => state.chosen);
  const muted = useEditor((state) => state.muted);
  const grounds = useEditor((state) => state.grounds);
  const document = useEditor(documentShown);
  const projection = usePlan((state) => state.projection);
  const scale_px_m = useScaleStep();
  const [left, right] = [useEdgeStep('left'), useEdgeStep('right')];
  const sides = useMemo(() => {
    const onSheet_px = ({ position_m }: { readonly position_m: Vec3 }): Flat => {
      const [u, v] = flat(position_m, projection);
      return [u * scale_px_m, v * scale_px_m];
    };
    const named = lamps
      .filter(({ id }) => lamps.length <= MOST_NAMED || chosen.includes(id))
      .map((lamp) => ({
        id: lamp.id,
        at_px: onSheet_px(lamp),
        name: lamp.name ?? lamp.id,
        always: chosen.includes(lamp.id),
      }));
    const others = document ? [...(document.marks ?? []), ...(document.cameras ?? [])] : [];
    return nameSides(named, [...lamps, ...others].map(onSheet_px), { from_px: left, to_px: right });
  }, [lamps, document, chosen, projection, scale_px_m, left, right]);
  return lamps.map((lamp) => (
    <LampDrawing
      key={lamp.id}
      lamp={lamp}
      sign={signs.get(lamp.id)!}
      side={sides.get(lamp.id) ?? 'none'}
      muted={muted.has(lamp.id)}
      ground_m={grounds.get(lamp.id)?.level_m ?? 0}
      projection={projection}
    />
  ));
}

const LampDrawing = memo(function LampDrawing(props: {
  readonly lamp: Lamp;
  readonly sign: LampSign;
  readonly side: NameSide;
  readonly muted: boolean;
  readonly ground_m: number;
  readonly projection: Projection;
}) {
  const { lamp, sign, side, muted, ground_m, projection } = props;
  const { id, position_m, aim_m, stand } = lamp;
  const name = lamp.name ?? id;
  const [u, v] = flat(position_m, projection);
  const [aimU, aimV] = flat(aim_m, projection);
  const along = Math.hypot(aimU - u, aimV - v);
  const angle_deg = (Math.atan2(aimV - v, aimU - u) * 180) / Math.PI;
  const endOn = along < 0.1 * distance(position_m, aim_m);
  const filled = lamp.on === false ? undefined : { fill: sign.fill };
  const state = `${lamp.on === false ? ' off' : ''}${muted ? ' muted' : ''}`;
  return (
    <ThingGroup
      id={id}
      kind="lamps"
      name={name}
      position_m={position_m}
      className={`plan-lamp${state}`}
      transform={`translate(${u} ${v})`}
      words={
        <g className="plan-sign">
          <text
            className="plan-initial"
            y={4.2}
            style={{ fontSize: sign.initial.length > 1 ? (sign.initial.length > 2 ? 7 : 9) : 12 }}
          >
            {sign.initial}
          </text>
          {side !== 'none' && (
            <text
              className="plan-name"
              x={side === 'right' ? 18 : -18}
              y={4}
              textAnchor={side === 'right' ? 'start' : 'end'}
            >
              {shortened(name)}
            </text>
          )}
        </g>
      }
    >
      {stand && projection === 'plan' && <circle className="plan-foot" r={stand.footRadius_m ?? 0.4} />}
      {projection !== 'plan' && (
        <path
          className="plan-foot"
          d={`M0 0V${position_m[1] - ground_m}m${-(stand?.footRadius_m ?? 0.2)} 0h${2 * (stand?.footRadius_m ?? 0.2)}`}
        />
      )}
      <g className="plan-sign">
        <circle className="plan-halo" r={22} />
        {endOn ? (
          <circle className="plan-head" r={11} style={filled} />
        ) : (
          <path
            className="plan-head"
            transform={`rotate(${angle_deg})`}
            d="M-13-8H6L14-12V12L6 8H-13Z"
            style={filled}
          />
        )}
        <circle className="plan-plate" r={8.5} />
      </g>
    </ThingGroup>
  );
});
