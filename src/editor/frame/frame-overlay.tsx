import { thirdsText } from '../../core/exposure/thirds.ts';
import type { AnswersState, Overlay } from '../answers/answers-state.ts';
import { isOverlayShown } from '../answers/asking.ts';
import { useAnswers } from '../answers/use-answers.ts';
import { rangeText } from '../figures/length-text.ts';
import { cameraShown, setupShown } from '../store/shown-scene.ts';
import { useEditor } from '../store/use-editor.ts';
import { useFrame } from './use-frame.ts';

/** Of the picture's width and height: what is safe for action and for titles (EBU R 95: 3.5 % and 5 % at each edge). */
const SAFE = [
  ['action', 0.035],
  ['titles', 0.05],
] as const;

/** An edge under a stop from what is behind it is as good as lost. */
const MERGES_stops = 1;

/** What lies over the frame: lines, the spot, glints, outlines, lamps in shot, what is in focus. Places are in per cent of the picture. */
export function FrameOverlay() {
  const lines = useFrame((state) => state.lines);
  return (
    <svg className="frame-overlay" viewBox="0 0 100 100" preserveAspectRatio="none" aria-hidden="true">
      {(lines === 'thirds' || lines === 'both') &&
        [1, 2].flatMap((third) => {
          const at = (100 * third) / 3;
          return [
            <line key={`x${third}`} className="frame-line" x1={at} x2={at} y1={0} y2={100} />,
            <line key={`y${third}`} className="frame-line" x1={0} x2={100} y1={at} y2={at} />,
          ];
        })}
      {(lines === 'safe' || lines === 'both') &&
        SAFE.map(([name, edge]) => (
          <rect
            key={name}
            className="frame-line"
            x={100 * edge}
            y={100 * edge}
            width={100 - 200 * edge}
            height={100 - 200 * edge}
          />
        ))}
      <FocusRange />
      <Outlines />
      <Glints />
      <InShot />
      <SpotMark />
    </svg>
  );
}

/** Only what is asked for, computed of the very scene that is shown, as it is shown. */
function useOverFrame<O extends Overlay>(overlay: O) {
  const of = useAnswers((state) => (isOverlayShown(overlay, state) ? state[overlay] : null));
  const scene = useEditor((state) => state.scene);
  const setup = useEditor(setupShown);
  const camera = useEditor((state) => cameraShown(state)?.id);
  const isOfShown = of && of.scene === scene && of.setup === setup && of.camera === camera;
  return (isOfShown ? of.items : []) as NonNullable<AnswersState[O]>['items'];
}

/** What lies within the depth of field, hatched, and from where to where that is. */
function FocusRange() {
  const [region] = useOverFrame('focus');
  const lengths = useEditor((state) => state.lengths);
  const { width, height } = useFrameOnScreen();
  if (!region) return null;
  const d = region.rings
    .map((ring) => `M${ring.map(([u, v]) => `${(100 * u).toFixed(2)} ${(100 * v).toFixed(2)}`).join('L')}Z`)
    .join('');
  return (
    <g className="frame-focus">
      <pattern
        id="frame-focus-hatch"
        width={9}
        height={9}
        patternUnits="userSpaceOnUse"
        patternTransform={`scale(${100 / width} ${100 / height}) rotate(45)`}
      >
        <path className="frame-focus-hatch" d="M0 0V9" />
      </pattern>
      <path className="frame-focus-edge under" d={d} />
      <path className="frame-focus-edge" d={d} fill="url(#frame-focus-hatch)" fillRule="evenodd" />
      <Sign u={0} v={0} className="frame-focus-words">
        <text x={8} y={19}>
          Sharp {rangeText(region.near_m, region.far_m, lengths)}
        </text>
      </Sign>
    </g>
  );
}

function Glints() {
  const items = useOverFrame('glints');
  return items
    .filter(({ inFrame }) => inFrame)
    .map(({ pixel: [u, v], stops, lamp, solid, burns }) => (
      <g key={`${lamp} ${solid} ${u} ${v}`}>
        <Sign u={u} v={v} className={burns ? 'frame-ring burns' : 'frame-ring'}>
          <circle r={13} />
          <text x={18} y={5}>
            {thirdsText(stops)}
          </text>
        </Sign>
      </g>
    ));
}

/** Beyond this share of the frame's width words stand under their sign, inward: its edge would cut them. */
const NEAR_EDGE = 0.75;

function InShot() {
  const items = useOverFrame('inShot');
  return items.map(({ lamp, name, what, at: { u, v }, practical }) => (
    <Sign key={`${lamp} ${what}`} u={u} v={v} className={practical ? 'frame-flag' : 'frame-flag fault'}>
      <path d="M 0 0 l -7 -14 h 14 z" />
      <text {...(u > NEAR_EDGE ? { x: 8, y: 14, textAnchor: 'end' } : { x: 10, y: -6 })}>
        {name}
        {what === 'stand' ? ', stand' : ''}
      </text>
    </Sign>
  ));
}

function Outlines() {
  const items = useOverFrame('outlines');
  return items.flatMap(({ figure, pieces }) =>
    pieces.map(({ line, stops }, i) => (
      <polyline
        // The pieces of an outline have no names but their order.
        // biome-ignore lint/suspicious/noArrayIndexKey: see above.
        key={`${figure} ${i}`}
        className={Math.abs(stops) < MERGES_stops ? 'frame-outline merges' : 'frame-outline'}
        points={line.map(([u, v]) => `${100 * u},${100 * v}`).join(' ')}
      />
    )),
  );
}

function SpotMark() {
  const spot = useFrame((state) => state.spot);
  if (!spot) return null;
  return (
    <Sign u={spot.u} v={spot.v} className="frame-spot">
      <circle r={9} />
      <path d="M -15 0 h 9 M 6 0 h 9 M 0 -15 v 9 M 0 6 v 9" />
    </Sign>
  );
}

/** A drawing in screen pixels about a place of the picture: the picture itself is stretched to the panel. */
function Sign({
  u,
  v,
  className,
  children,
}: {
  readonly u: number;
  readonly v: number;
  readonly className: string;
  readonly children: React.ReactNode;
}) {
  const { width, height } = useFrameOnScreen();
  return (
    <g
      className={className}
      transform={`translate(${100 * u} ${100 * v}) scale(${100 / width} ${100 / height})`}
    >
      {children}
    </g>
  );
}

/** How large the picture is on the screen, for what keeps its size on it. */
function useFrameOnScreen() {
  const size = useFrame((state) => state.onScreen);
  return size ?? { width: 640, height: 360 };
}
