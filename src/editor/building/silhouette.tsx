import type { FigurePart } from '../../core/geometry/figure.ts';
import { figureParts } from '../../core/geometry/figure.ts';
import { worldPoint } from '../../core/geometry/placement.ts';
import type { Figure } from '../../scene/schema/figure.ts';

type Pose = NonNullable<Figure['pose']>;

interface SilhouetteProps {
  readonly pose: Pose;
  /** By what is worn, as CSS colours; one colour for all where it is left out. */
  readonly colours?: Readonly<Record<FigurePart['role'], string>>;
}

/** Turned a little, so that a step and a seat show. */
const TURNED_deg = 35;
const TALL = 100;

/** The same body that is lit and metered, drawn as it stands. */
export function Silhouette({ pose, colours }: SilhouetteProps) {
  const parts = figureParts({ position_m: [0, 0, 0], heading_deg: TURNED_deg, pose, height_m: TALL });
  // The farther limb is drawn first.
  const ordered = [...parts].sort((a, b) => depthOf(a) - depthOf(b));
  return (
    <svg className="silhouette" viewBox="-38 -102 76 104" aria-hidden="true" focusable="false">
      {ordered.map((part) => (
        <Limb key={part.name} part={part} colour={colours?.[part.role] ?? 'currentColor'} />
      ))}
    </svg>
  );
}

function depthOf({ shape }: FigurePart): number {
  return shape.placement.origin_m[2];
}

function Limb({ part: { shape }, colour }: { readonly part: FigurePart; readonly colour: string }) {
  if (shape.kind === 'capsule') {
    const [x1, y1] = worldPoint(shape.placement, [0, -shape.halfLength_m, 0]);
    const [x2, y2] = worldPoint(shape.placement, [0, shape.halfLength_m, 0]);
    return (
      <line
        x1={x1}
        y1={-y1}
        x2={x2}
        y2={-y2}
        stroke={colour}
        strokeWidth={2 * shape.radius_m}
        strokeLinecap="round"
      />
    );
  }
  const [hx, hy, hz] = shape.halfSize_m;
  const corners = [-1, 1].flatMap((i) =>
    [-1, 1].flatMap((j) => [-1, 1].map((k) => worldPoint(shape.placement, [i * hx, j * hy, k * hz]))),
  );
  const xs = corners.map(([x]) => x);
  const ys = corners.map(([, y]) => -y);
  const [left, top] = [Math.min(...xs), Math.min(...ys)];
  return (
    <rect
      x={left}
      y={top}
      width={Math.max(...xs) - left}
      height={Math.max(...ys) - top}
      rx={1.5}
      fill={colour}
    />
  );
}
