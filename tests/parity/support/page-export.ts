import { exportFrame, type FrameExport } from '../../../src/editor/frame/export-frame.ts';
import { type RenderedPicture, renderPicture } from '../../../src/preview/export/render-picture.ts';
import { type FrameJob, type FrameOutcome, sceneOf } from './page-frame.ts';
import { textFromWords, wordsOf } from './words.ts';

/** What the test asks of the page beside the frame itself. */
export interface ExportJob {
  readonly frame: FrameJob;
  readonly until: { readonly samples: number } | { readonly noise: number };
  readonly tile_px: number;
  /** Aborts after so many rows. */
  readonly cancelAfterRows?: number;
  /** Takes the context away, and gives it back, after so many rows. */
  readonly loseAfterRows?: number;
}

export interface ExportOutcome {
  /** All rows that came, linear RGB. */
  readonly words: string;
  /** How many rows came at a time. */
  readonly bands: readonly number[];
  readonly progress: readonly number[];
  readonly picture: RenderedPicture | null;
  /** Why it stopped, else null. */
  readonly stopped: string | null;
  readonly contextGivenBack: boolean;
  /** Draws that were asked for after it had stopped. */
  readonly drawsAfterwards: number;
}

declare global {
  interface Window {
    /** The bytes of a file. */
    keyfallExportFile(order: Omit<FrameExport, 'scene'>, frame: FrameJob): Promise<number[]>;
    keyfallExport(job: ExportJob): Promise<ExportOutcome>;
    keyfallFrame(job: FrameJob): Promise<FrameOutcome>;
  }
}

window.keyfallExport = async ({ frame, until, tile_px, cancelAfterRows, loseAfterRows }) => {
  if (!('lens' in frame.view)) throw new Error('A picture is that of a camera.');
  const { lens, width: width_px, height: height_px } = frame.view;
  const canvas = document.createElement('canvas');
  const gl = canvas.getContext('webgl2', { alpha: false, antialias: false, depth: false })!;
  const loss = gl.getExtension('WEBGL_lose_context')!;
  let draws = 0;
  const drawArrays = gl.drawArrays.bind(gl);
  gl.drawArrays = (...given) => {
    draws++;
    drawArrays(...given);
  };
  const abort = new AbortController();
  const floats: number[] = [];
  const bands: number[] = [];
  const progress: number[] = [];
  const order = { scene: sceneOf(frame), lens, width_px, height_px, until, tile_px, canvas, dark_cd_m2: 0 };
  const taker = {
    async rows(rgb: Float32Array) {
      floats.push(...rgb);
      bands.push(rgb.length / 3 / width_px);
      const there = floats.length / 3 / width_px;
      if (cancelAfterRows !== undefined && there >= cancelAfterRows) abort.abort(new Error('enough'));
      if (loseAfterRows !== undefined && there === loseAfterRows) {
        loss.loseContext();
        canvas.addEventListener('webglcontextlost', () => setTimeout(() => loss.restoreContext(), 100), {
          once: true,
        });
      }
    },
    progress: (share: number) => void progress.push(share),
  };
  let picture: RenderedPicture | null = null;
  let stopped: string | null = null;
  try {
    picture = await renderPicture(order, taker, abort.signal);
  } catch (error) {
    stopped = (error as Error).message;
  }
  const drawsThen = draws;
  await new Promise((resolve) => setTimeout(resolve, 200));
  return {
    words: textFromWords(wordsOf(Float32Array.from(floats))),
    bands,
    progress,
    picture,
    stopped,
    contextGivenBack: gl.isContextLost(),
    drawsAfterwards: draws - drawsThen,
  };
};

window.keyfallExportFile = async (order, frame) => {
  const file = await exportFrame({ ...order, scene: sceneOf(frame) }, () => {});
  return [...new Uint8Array(await file.arrayBuffer())];
};
