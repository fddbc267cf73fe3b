import { placeInFrame, type ThinLens } from '../../core/camera/thin-lens.ts';
import { type FigurePart, type FigureSpec, figureParts } from '../../core/geometry/figure.ts';
import { worldPoint } from '../../core/geometry/placement.ts';
import { add, scale, type Vec3 } from '../../core/math/vec3.ts';
import type { FrameSide } from './sighting.ts';

/** How a figure sits in the frame, nothing in its way looked at. */
export interface FigureInFrame {
  readonly framing: 'whole' | 'cut' | 'out';
  /** Edges of the frame that cut it, and what they cut through. */
  readonly cuts: readonly { readonly side: FrameSide; readonly through: readonly string[] }[];
  /** Room over its head, and under its lowest point, as shares of the frame's height; negative where it is cut. */
  readonly headroom: number;
  readonly footroom: number;
}

interface Extent {
  readonly part: string;
  left: number;
  right: number;
  top: number;
  bottom: number;
}

const SIDES: readonly FrameSide[] = ['top', 'bottom', 'left', 'right'];

export function figureInFrame(lens: ThinLens, spec: FigureSpec): FigureInFrame {
  const extents = figureParts(spec).map((part) => extentOf(lens, part));
  const whole = extents.reduce((sum, extent) => ({
    part: '',
    left: Math.min(sum.left, extent.left),
    right: Math.max(sum.right, extent.right),
    top: Math.min(sum.top, extent.top),
    bottom: Math.max(sum.bottom, extent.bottom),
  }));
  const room = { headroom: whole.top, footroom: 1 - whole.bottom };
  if (!extents.some(touchesFrame)) return { framing: 'out', cuts: [], ...room };
  const cuts = SIDES.filter((side) => beyond(whole, side)).map((side) => ({
    side,
    through: [
      ...new Set(
        extents.filter((extent) => touchesFrame(extent) && beyond(extent, side)).map(({ part }) => part),
      ),
    ],
  }));
  return { framing: cuts.length > 0 ? 'cut' : 'whole', cuts, ...room };
}

function touchesFrame(extent: Extent): boolean {
  return extent.right > 0 && extent.left < 1 && extent.bottom > 0 && extent.top < 1;
}

function beyond(extent: Extent, side: FrameSide): boolean {
  switch (side) {
    case 'top':
      return extent.top < 0;
    case 'bottom':
      return extent.bottom > 1;
    case 'left':
      return extent.left < 0;
    case 'right':
      return extent.right > 1;
  }
}

/** What a part covers in the frame, by points of its outline; a part beside or behind the lens covers nothing. */
function extentOf(lens: ThinLens, { shape, name }: FigurePart): Extent {
  const extent: Extent = {
    part: bodyPart(name),
    left: Number.POSITIVE_INFINITY,
    right: Number.NEGATIVE_INFINITY,
    top: Number.POSITIVE_INFINITY,
    bottom: Number.NEGATIVE_INFINITY,
  };
  for (const point of outlinePoints(lens, shape)) {
    const place = placeInFrame(lens, point);
    if (!place) continue;
    extent.left = Math.min(extent.left, place.u);
    extent.right = Math.max(extent.right, place.u);
    extent.top = Math.min(extent.top, place.v);
    extent.bottom = Math.max(extent.bottom, place.v);
  }
  return extent;
}

function outlinePoints(lens: ThinLens, shape: FigurePart['shape']): Vec3[] {
  const { placement } = shape;
  const signs = [1, -1];
  if (shape.kind === 'box') {
    const [x, y, z] = shape.halfSize_m;
    return signs.flatMap((i) =>
      signs.flatMap((j) => signs.map((k) => worldPoint(placement, [i * x, j * y, k * z]))),
    );
  }
  return signs.flatMap((end) => {
    const centre = worldPoint(placement, [0, end * shape.halfLength_m, 0]);
    return [lens.right, lens.up].flatMap((axis) =>
      signs.map((side) => add(centre, scale(axis, side * shape.radius_m))),
    );
  });
}

/** "left shin" → "shin": the frame's edge is what matters, not which leg. */
function bodyPart(name: string): string {
  return name.replace(/^(left|right) /, '').replace(/,.*$/, '');
}
