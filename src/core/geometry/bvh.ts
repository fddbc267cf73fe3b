import { BOUNDS_STRIDE } from './bounds.ts';

/**
 * A hierarchy of axis-aligned boxes over the shapes, flattened depth first and threaded: node i + 1 is the first
 * child of node i, and `skip[i]` is where to go on when node i is missed or done, so that a ray needs no stack.
 * Built by the binned surface-area heuristic (I. Wald, On fast construction of SAH-based bounding volume hierarchies,
 * 2007): of 16 planes along each axis, the one with least Σ area · count.
 */
export interface Hierarchy {
  /** Six numbers a node (see bounds.ts), a little wider than what they hold. */
  readonly bounds: Float64Array;
  readonly skip: Int32Array;
  /** A leaf's shapes are order[first] .. order[first + count − 1]; count is 0 for an inner node. */
  readonly first: Int32Array;
  readonly count: Int32Array;
  readonly order: Int32Array;
}

export const LARGEST_LEAF = 2;
const BINS = 16;

/**
 * Node bounds are widened by this much, plus a billionth of their coordinates, so that rounding in the box test
 * never loses a hit that the shape's own test finds: flat panels, edges, rays that start kilometres away.
 */
const MARGIN_m = 1e-6;
const MARGIN_RELATIVE = 1e-9;

/** Builds the hierarchy of `shapeCount` shapes from their bounds (six numbers each). */
export function buildHierarchy(shapeBounds: Float64Array, shapeCount: number): Hierarchy {
  const order = Int32Array.from({ length: shapeCount }, (_, shape) => shape);
  const capacity = Math.max(0, 2 * shapeCount - 1);
  const bounds = new Float64Array(capacity * BOUNDS_STRIDE);
  const first = new Int32Array(capacity);
  const count = new Int32Array(capacity);
  const secondChild = new Int32Array(capacity);
  const splitter = new Splitter(shapeBounds, order);

  // Ranges of `order` still to become nodes, with the node whose second child they are (−1: none).
  const pending: [start: number, end: number, parent: number][] = shapeCount > 0 ? [[0, shapeCount, -1]] : [];
  let nodes = 0;
  for (let range = pending.pop(); range; range = pending.pop()) {
    const [start, end, parent] = range;
    const node = nodes++;
    if (parent >= 0) secondChild[parent] = node;
    encloseWithMargin(shapeBounds, order, start, end, bounds, node * BOUNDS_STRIDE);
    if (end - start <= LARGEST_LEAF) {
      first[node] = start;
      count[node] = end - start;
    } else {
      const middle = splitter.split(start, end);
      pending.push([middle, end, node], [start, middle, -1]);
    }
  }

  const skip = new Int32Array(nodes);
  if (nodes > 0) skip[0] = nodes;
  for (let node = 0; node < nodes; node++) {
    if (count[node]! > 0) continue;
    skip[node + 1] = secondChild[node]!;
    skip[secondChild[node]!] = skip[node]!;
  }
  return {
    bounds: bounds.slice(0, nodes * BOUNDS_STRIDE),
    skip,
    first: first.slice(0, nodes),
    count: count.slice(0, nodes),
    order,
  };
}

/** Parts ranges of `order` in two, in place. */
class Splitter {
  private readonly shapeBounds: Float64Array;
  private readonly order: Int32Array;
  private readonly binCount = new Int32Array(BINS);
  private readonly binBounds = new Float64Array(BINS * BOUNDS_STRIDE);
  private readonly costAbove = new Float64Array(BINS);
  private readonly swept = new Float64Array(BOUNDS_STRIDE);

  constructor(shapeBounds: Float64Array, order: Int32Array) {
    this.shapeBounds = shapeBounds;
    this.order = order;
  }

  /** Index of the first shape of the second part, strictly between start and end. */
  split(start: number, end: number): number {
    let leastCost = Number.POSITIVE_INFINITY;
    let bestAxis = 0;
    let bestPlane = 0;
    let bestLow = 0;
    let bestScale = 0;
    for (let axis = 0; axis < 3; axis++) {
      let low = Number.POSITIVE_INFINITY;
      let high = Number.NEGATIVE_INFINITY;
      for (let i = start; i < end; i++) {
        const c = this.doubledCentre(this.order[i]!, axis);
        if (c < low) low = c;
        if (c > high) high = c;
      }
      const scale = BINS / (high - low);
      if (!(high > low) || !Number.isFinite(scale)) continue;
      this.fillBins(start, end, axis, low, scale);
      const plane = this.cheapestPlane();
      const cost = this.costAbove[plane]!;
      if (cost < leastCost) {
        leastCost = cost;
        bestAxis = axis;
        bestPlane = plane;
        bestLow = low;
        bestScale = scale;
      }
    }
    const middle =
      leastCost < Number.POSITIVE_INFINITY
        ? this.partition(start, end, bestAxis, bestPlane, bestLow, bestScale)
        : start;
    // Centres that coincide cannot be told apart by any plane; halves are as good as anything.
    return middle > start && middle < end ? middle : (start + end) >> 1;
  }

  private doubledCentre(shape: number, axis: number): number {
    const at = shape * BOUNDS_STRIDE + axis;
    return this.shapeBounds[at]! + this.shapeBounds[at + 3]!;
  }

  private bin(shape: number, axis: number, low: number, scale: number): number {
    return Math.min(BINS - 1, Math.floor((this.doubledCentre(shape, axis) - low) * scale));
  }

  private fillBins(start: number, end: number, axis: number, low: number, scale: number): void {
    this.binCount.fill(0);
    for (let bin = 0; bin < BINS; bin++) makeEmpty(this.binBounds, bin * BOUNDS_STRIDE);
    for (let i = start; i < end; i++) {
      const shape = this.order[i]!;
      const bin = this.bin(shape, axis, low, scale);
      this.binCount[bin]!++;
      enclose(this.binBounds, bin * BOUNDS_STRIDE, this.shapeBounds, shape * BOUNDS_STRIDE);
    }
  }

  /** The bin that starts the second part; leaves its cost in `costAbove` at that bin. */
  private cheapestPlane(): number {
    makeEmpty(this.swept, 0);
    let shapes = 0;
    for (let bin = BINS - 1; bin > 0; bin--) {
      enclose(this.swept, 0, this.binBounds, bin * BOUNDS_STRIDE);
      shapes += this.binCount[bin]!;
      this.costAbove[bin] = shapes > 0 ? shapes * area(this.swept) : Number.POSITIVE_INFINITY;
    }
    makeEmpty(this.swept, 0);
    shapes = 0;
    let best = 1;
    for (let bin = 1; bin < BINS; bin++) {
      enclose(this.swept, 0, this.binBounds, (bin - 1) * BOUNDS_STRIDE);
      shapes += this.binCount[bin - 1]!;
      this.costAbove[bin]! += shapes > 0 ? shapes * area(this.swept) : Number.POSITIVE_INFINITY;
      if (this.costAbove[bin]! < this.costAbove[best]!) best = bin;
    }
    return best;
  }

  private partition(
    start: number,
    end: number,
    axis: number,
    plane: number,
    low: number,
    scale: number,
  ): number {
    let middle = start;
    for (let i = start; i < end; i++) {
      const shape = this.order[i]!;
      if (this.bin(shape, axis, low, scale) < plane) {
        this.order[i] = this.order[middle]!;
        this.order[middle++] = shape;
      }
    }
    return middle;
  }
}

function makeEmpty(bounds: Float64Array, at: number): void {
  bounds.fill(Number.POSITIVE_INFINITY, at, at + 3);
  bounds.fill(Number.NEGATIVE_INFINITY, at + 3, at + 6);
}

function enclose(bounds: Float64Array, at: number, inner: Float64Array, innerAt: number): void {
  for (let k = 0; k < 3; k++) {
    if (inner[innerAt + k]! < bounds[at + k]!) bounds[at + k] = inner[innerAt + k]!;
    if (inner[innerAt + 3 + k]! > bounds[at + 3 + k]!) bounds[at + 3 + k] = inner[innerAt + 3 + k]!;
  }
}

/** Half the surface of a box. */
function area(bounds: Float64Array): number {
  const x = bounds[3]! - bounds[0]!;
  const y = bounds[4]! - bounds[1]!;
  const z = bounds[5]! - bounds[2]!;
  return x * y + y * z + z * x;
}

function encloseWithMargin(
  shapeBounds: Float64Array,
  order: Int32Array,
  start: number,
  end: number,
  bounds: Float64Array,
  at: number,
): void {
  makeEmpty(bounds, at);
  for (let i = start; i < end; i++) enclose(bounds, at, shapeBounds, order[i]! * BOUNDS_STRIDE);
  for (let k = 0; k < 3; k++) {
    const low = bounds[at + k]!;
    const high = bounds[at + 3 + k]!;
    bounds[at + k] = low - MARGIN_m - MARGIN_RELATIVE * Math.abs(low);
    bounds[at + 3 + k] = high + MARGIN_m + MARGIN_RELATIVE * Math.abs(high);
  }
}
