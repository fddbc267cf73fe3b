const FAMILY = 'system-ui, "Segoe UI", "Noto Sans", "DejaVu Sans", sans-serif';
const MOST_KEPT = 4000;
const widths = new Map<string, number>();
let context: CanvasRenderingContext2D | null | undefined;

/** Width of a text in the page's font, px. */
export function textWidth_px(text: string, weight: number, size_px: number): number {
  const font = `${weight} ${size_px}px ${FAMILY}`;
  const key = `${font}|${text}`;
  let width = widths.get(key);
  if (width === undefined) {
    context ??= document.createElement('canvas').getContext('2d');
    if (context) context.font = font;
    width = context?.measureText(text).width ?? text.length * size_px * 0.6;
    if (widths.size >= MOST_KEPT) widths.clear();
    widths.set(key, width);
  }
  return width;
}
