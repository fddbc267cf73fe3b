import type { ThinLens } from '../../core/camera/thin-lens.ts';
import { checkSides } from '../../core/picture/picture.ts';
import { GraphicsUnable } from '../gl/float-target.ts';
import type { Mix } from '../renderer/light-keeping.ts';
import { REPLICATES } from '../renderer/noise.ts';
import type { PreviewScene } from '../renderer/preview-scene.ts';
import { createRenderer, type Renderer } from '../renderer/renderer.ts';
import { browserTurn } from './browser-turn.ts';
import { newMedianTally } from './median-tally.ts';
import { type NoisyLight, relativeErrors } from './relative-errors.ts';

/** A picture to be rendered once, at rest, however large it is. */
export interface PictureOrder {
  readonly scene: PreviewScene;
  /** By the scene's own gains when left out. */
  readonly mix?: Mix;
  readonly lens: ThinLens;
  readonly width_px: number;
  readonly height_px: number;
  /** So many samples a pixel, or in every tile as many as bring its median relative error under this. */
  readonly until: { readonly samples: number } | { readonly noise: number };
  /** Pixels that are darker do not count for the noise. */
  readonly dark_cd_m2: number;
  readonly seed?: number;
  /** Longest side of a tile. */
  readonly tile_px?: number;
  /** Drawn on and used up; one of its own when left out. */
  readonly canvas?: HTMLCanvasElement | OffscreenCanvas;
}

/** Where a picture goes as it comes. */
export interface PictureTaker {
  /** The next rows from the top, linear RGB, cd/m². Waited for; the next rows overwrite them. */
  rows(rgb: Float32Array): void | Promise<void>;
  /** The share that is done, 0 to 1; never falls. */
  progress?(share: number): void;
}

export interface RenderedPicture {
  /** Samples a pixel: of the tile with fewest and the tile with most. */
  readonly samples: { readonly least: number; readonly most: number };
  /** Median relative error over the pixels, to about 1 % of it; null where there were too few samples to tell, or all is dark. */
  readonly noise: number | null;
}

/** Little enough for every card: its floats take 4 MB an output. */
const TILE_px = 512;
const BUDGET_ms = 25;
const FIRST_SAMPLES = 12;
const MOST_SAMPLES = 4096;
/** What a night scene with haze and gloss came to. */
const TYPICAL = { samples: 64, noise: 0.05 };
/** A context that the browser gives back comes sooner than this. */
const LOST_FOR_GOOD_ms = 15_000;

/**
 * Renders a picture tile by tile on a renderer of its own and hands it on in bands of rows. A pixel is the same whatever the
 * tiles are, as long as it has as many samples. A lost context costs the tile that was being made.
 * Rejects with the signal's reason when that aborts, with GraphicsUnable where the graphics cannot or do not come back, with
 * RangeError for sides or counts that are none, and with what the taker throws; the card has its memory back in any case.
 */
export async function renderPicture(
  order: PictureOrder,
  taker: PictureTaker,
  signal?: AbortSignal,
): Promise<RenderedPicture> {
  checkOrder(order);
  signal?.throwIfAborted();
  const { width_px, height_px, lens, seed, tile_px = TILE_px } = order;
  const canvas = order.canvas ?? ownCanvas();
  const renderer = createRenderer(canvas, { ...(seed === undefined ? {} : { seed }) });
  // The context that the renderer draws in: asked for again, a canvas gives the same.
  const gl = canvas.getContext('webgl2') as WebGL2RenderingContext;
  const errors = newMedianTally();
  const samples = { least: Number.POSITIVE_INFINITY, most: 0 };
  let pixelsDone = 0;
  let told = 0;
  const tell = (pixelsOfTile: number) => {
    told = Math.max(told, (pixelsDone + pixelsOfTile) / (width_px * height_px));
    taker.progress?.(told);
  };
  const bandOfMostRows = new Float32Array(3 * width_px * Math.min(tile_px, height_px));
  try {
    renderer.setScene(order.scene, order.mix);
    for (let y = 0; y < height_px; y += tile_px) {
      const height = Math.min(tile_px, height_px - y);
      const band = bandOfMostRows.subarray(0, 3 * width_px * height);
      for (let x = 0; x < width_px; x += tile_px) {
        const width = Math.min(tile_px, width_px - x);
        renderer.setCamera(lens, width, height, { wholeWidth: width_px, wholeHeight: height_px, x, y });
        const tile = await tileLight(renderer, gl, order, [width, height], signal, (share) =>
          tell(share * width * height),
        );
        for (let row = 0; row < height; row++) {
          const line = tile.rgb.subarray(3 * row * width, 3 * (row + 1) * width);
          band.set(line, 3 * (row * width_px + x));
        }
        errors.add(tile.errors);
        samples.least = Math.min(samples.least, tile.samples);
        samples.most = Math.max(samples.most, tile.samples);
        pixelsDone += width * height;
        tell(0);
      }
      await taker.rows(band);
      signal?.throwIfAborted();
    }
    return { samples, noise: errors.median() };
  } finally {
    renderer.dispose();
    gl.getExtension('WEBGL_lose_context')?.loseContext();
  }
}

function ownCanvas(): HTMLCanvasElement | OffscreenCanvas {
  return typeof OffscreenCanvas === 'undefined'
    ? document.createElement('canvas')
    : new OffscreenCanvas(1, 1);
}

interface TileLight {
  readonly rgb: Float32Array;
  /** Relative errors of its pixels that are not dark; empty with too few samples. */
  readonly errors: readonly number[];
  readonly samples: number;
}

/** Draws the tile that the renderer is set to until it has samples enough. */
async function tileLight(
  renderer: Renderer,
  gl: WebGL2RenderingContext,
  { until, dark_cd_m2 }: PictureOrder,
  [width_px, height_px]: readonly [number, number],
  signal: AbortSignal | undefined,
  tell: (share: number) => void,
): Promise<TileLight> {
  const first = 'samples' in until ? until.samples : FIRST_SAMPLES;
  let wanted = first;
  /** By the noise so far; only for what is told of the progress. */
  let expected = 'samples' in until ? until.samples : TYPICAL.samples * (TYPICAL.noise / until.noise) ** 2;
  let idleSince_ms: number | null = null;
  while (true) {
    await browserTurn();
    signal?.throwIfAborted();
    if (renderer.renderSome(BUDGET_ms) === 'idle') {
      idleSince_ms ??= performance.now();
      if (performance.now() - idleSince_ms > LOST_FOR_GOOD_ms)
        throw new GraphicsUnable(
          'The graphics were lost and did not come back: try again, with a smaller picture if it happens again.',
        );
      wanted = first;
      continue;
    }
    idleSince_ms = null;
    const samples = renderer.samples();
    tell(Math.min(1, samples / expected));
    if (samples < wanted) continue;
    const rgb = renderer.linear();
    const variances = renderer.variances();
    // Numbers of a context that went while they were read are none.
    if (!rgb || gl.isContextLost()) continue;
    const light: NoisyLight | null = variances && { width_px, height_px, rgb, variances };
    const errors = light ? relativeErrors(light, dark_cd_m2) : [];
    if ('samples' in until || samples >= MOST_SAMPLES) return { rgb, errors, samples };
    const noise = medianOf(errors);
    if (noise <= until.noise) return { rgb, errors, samples };
    expected = Math.min(MOST_SAMPLES, samples * (noise / until.noise) ** 2);
    wanted = Math.min(MOST_SAMPLES, samplesFor(samples, noise / until.noise));
  }
}

/** Noise falls with the root of the samples; no more than twice as many on the word of one look. */
function samplesFor(samples: number, tooNoisy: number): number {
  const wanted = samples * Math.min(2, tooNoisy ** 2);
  return Math.max(samples + REPLICATES, REPLICATES * Math.ceil(wanted / REPLICATES));
}

function medianOf(errors: readonly number[]): number {
  return errors.toSorted((a, b) => a - b)[errors.length >> 1] ?? 0;
}

function checkOrder({ width_px, height_px, until, tile_px = TILE_px }: PictureOrder): void {
  checkSides(width_px, height_px);
  if (!Number.isInteger(tile_px) || tile_px < 1)
    throw new RangeError(`tiles of ${tile_px} px; it must be a whole number of at least 1`);
  if ('samples' in until) {
    if (!Number.isInteger(until.samples) || until.samples < 1)
      throw new RangeError(`${until.samples} samples a pixel; it must be a whole number of at least 1`);
  } else if (!(until.noise > 0)) {
    throw new RangeError(`a median error of ${until.noise} is no aim; it must be above 0`);
  }
}
