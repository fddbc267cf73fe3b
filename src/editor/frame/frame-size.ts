/**
 * How many pixels a frame is traced in. As many as the panel has, unless this machine is too slow for that: then halves of
 * it, until one sample of every pixel takes no longer than is bearable: while something moves, the renderer's coarse frame is
 * what is seen. A size that is in use is given up only when it takes far longer, so that a frame does not go back and forth.
 */
const BEARABLE_ms = 1800;
const UNBEARABLE = 1.6;
const LEAST_WIDTH_px = 96;
/** Beyond this a frame on screen gains nothing. */
const MOST_PIXELS = 1920 * 1080;
/** As long as nothing is known of the machine. */
const FIRST_PIXELS = 160 * 90;

export type FrameSize = readonly [width_px: number, height_px: number];

export function frameSize(
  panel: { readonly width_px: number; readonly height_px: number },
  speed_px_per_ms: number | null,
  inUse: FrameSize | null,
): FrameSize {
  const most = speed_px_per_ms === null ? FIRST_PIXELS : Math.min(MOST_PIXELS, speed_px_per_ms * BEARABLE_ms);
  for (let half = 0; ; half++) {
    const size = halved(panel, half);
    const pixels = size[0] * size[1];
    const inUseNow = inUse?.[0] === size[0] && inUse[1] === size[1];
    if (pixels <= most * (inUseNow ? UNBEARABLE : 1) || size[0] / 2 < LEAST_WIDTH_px) return size;
  }
}

function halved(panel: Parameters<typeof frameSize>[0], times: number): FrameSize {
  const part = (px: number) => Math.max(1, Math.round(px / 2 ** times));
  return [part(panel.width_px), part(panel.height_px)];
}
