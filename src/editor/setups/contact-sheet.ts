import { pngOf } from '../../paperwork/picture-files/png.ts';

/** A picture of the sheet with its words beneath. */
export interface SheetCell {
  readonly title: string;
  readonly pictures: readonly { readonly image: ImageData; readonly words: string }[];
  /** Names on the left, figures on the right in columns, a line each, under the pictures. */
  readonly figures?: readonly (readonly [name: string, ...figures: string[]])[];
  /** Sentences under all that, in as many lines as they need. */
  readonly notes?: readonly string[];
}

export interface ContactSheet {
  readonly title: string;
  readonly lines: readonly string[];
  readonly cells: readonly SheetCell[];
  readonly footer: readonly string[];
}

/** Neutral and dark, so that no picture looks other than on the screen. */
const GROUND = '#161616';
const INK = '#f0f0f0';
const QUIET = '#c4c4c4';
const FACE = 'system-ui, "Segoe UI", "Noto Sans", "DejaVu Sans", sans-serif';
const TITLE_FONT = `600 16px ${FACE}`;
const PICTURE_px = 288;
const GAP_px = 8;
const MARGIN_px = 28;
/** Pictures side by side, whether of one cell or of several. */
const ACROSS = 4;
const LINE_px = 22;
const TITLE_px = 34;
/** Of one column of figures. */
const FIGURE_px = 46;

/** The sheet as a PNG file, which says in its texts how the pictures were made. */
export function sheetFile(sheet: ContactSheet, texts: Readonly<Record<string, string>>): Blob {
  const across = Math.max(1, ...sheet.cells.map(({ pictures }) => pictures.length));
  const columns = Math.min(Math.max(1, Math.floor(ACROSS / across)), Math.max(1, sheet.cells.length));
  const cellWidth_px = across * (PICTURE_px + GAP_px);
  const width_px = 2 * MARGIN_px + columns * cellWidth_px + (columns - 1) * MARGIN_px;
  const room_px = width_px - 2 * MARGIN_px;
  const measure = penOf(1, 1);
  measure.font = `15px ${FACE}`;
  const head = sheet.lines.flatMap((line) => wrapped(measure, line, room_px));
  const foot = sheet.footer.flatMap((line) => wrapped(measure, line, room_px));
  const linesOf = ({ notes = [] }: SheetCell) =>
    notes.flatMap((note) => wrapped(measure, note, cellWidth_px - GAP_px));
  const rows = inRows(sheet.cells, columns);
  const titles = penOf(1, 1);
  titles.font = TITLE_FONT;
  const titleOf = ({ title }: SheetCell) => wrapped(titles, title, cellWidth_px - GAP_px);
  const titleHeights = rows.map((row) => Math.max(...row.map((cell) => titleOf(cell).length)) * LINE_px);
  const heights = rows.map(
    (row, i) =>
      titleHeights[i]! + Math.max(...row.map((cell) => cellHeight_px(cell) + linesOf(cell).length * LINE_px)),
  );
  const height_px =
    2 * MARGIN_px +
    TITLE_px +
    (head.length + foot.length) * LINE_px +
    heights.reduce((sum, height) => sum + height, 0) +
    MARGIN_px;

  const pen = penOf(width_px, height_px);
  pen.fillStyle = GROUND;
  pen.fillRect(0, 0, width_px, height_px);
  pen.textBaseline = 'top';
  let y = MARGIN_px;
  const write = (text: string, x: number, at: number, font: string, ink: string, most_px: number) => {
    pen.font = font;
    pen.fillStyle = ink;
    pen.fillText(shortened(pen, text, most_px), x, at);
  };
  write(sheet.title, MARGIN_px, y, `600 24px ${FACE}`, INK, room_px);
  y += TITLE_px;
  for (const line of head) {
    write(line, MARGIN_px, y, `15px ${FACE}`, QUIET, room_px);
    y += LINE_px;
  }
  y += MARGIN_px / 2;
  for (const [i, row] of rows.entries()) {
    for (const [column, cell] of row.entries()) {
      const x = MARGIN_px + column * (cellWidth_px + MARGIN_px);
      for (const [k, line] of titleOf(cell).entries())
        write(line, x, y + k * LINE_px, TITLE_FONT, INK, cellWidth_px - GAP_px);
      // Pictures of a row stand in one line, however long the titles over them are.
      const at = y + titleHeights[i]!;
      for (const [k, { image, words }] of cell.pictures.entries()) {
        const left = x + k * (PICTURE_px + GAP_px);
        drawImage(pen, image, left, at);
        write(words, left, at + pictureHeight_px(image) + 4, `15px ${FACE}`, INK, PICTURE_px);
      }
      const under = at + pictureCellHeight_px(cell);
      for (const [k, [name, ...figures]] of (cell.figures ?? []).entries()) {
        const line = under + k * LINE_px;
        const right = x + PICTURE_px;
        write(name, x, line, `14px ${FACE}`, QUIET, PICTURE_px - figures.length * FIGURE_px - GAP_px);
        pen.textAlign = 'right';
        for (const [j, figure] of figures.entries())
          write(figure, right - (figures.length - 1 - j) * FIGURE_px, line, `14px ${FACE}`, INK, FIGURE_px);
        pen.textAlign = 'left';
      }
      for (const [k, line] of linesOf(cell).entries())
        write(
          line,
          x,
          at + cellHeight_px(cell) - MARGIN_px / 2 + k * LINE_px,
          `15px ${FACE}`,
          QUIET,
          cellWidth_px - GAP_px,
        );
    }
    y += heights[i]!;
  }
  y += MARGIN_px / 2;
  for (const line of foot) {
    write(line, MARGIN_px, y, `15px ${FACE}`, QUIET, room_px);
    y += LINE_px;
  }
  const { data } = pen.getImageData(0, 0, width_px, height_px);
  const png = pngOf({ width_px, height_px, rgb: withoutAlpha(data) }, texts);
  return new Blob([png.slice()], { type: 'image/png' });
}

function penOf(width_px: number, height_px: number) {
  const pen = new OffscreenCanvas(width_px, height_px).getContext('2d', { willReadFrequently: true });
  if (!pen) throw new Error('this browser gives no canvas to draw the sheet on');
  return pen;
}

function drawImage(
  pen: OffscreenCanvasRenderingContext2D,
  image: ImageData,
  left: number,
  top: number,
): void {
  const own = penOf(image.width, image.height);
  own.putImageData(image, 0, 0);
  pen.imageSmoothingQuality = 'high';
  pen.drawImage(own.canvas, left, top, PICTURE_px, pictureHeight_px(image));
}

function pictureHeight_px({ width, height }: ImageData): number {
  return Math.round((PICTURE_px * height) / width);
}

/** Pictures and their words. */
function pictureCellHeight_px({ pictures }: SheetCell): number {
  const picture_px = Math.max(0, ...pictures.map(({ image }) => pictureHeight_px(image)));
  return picture_px + 4 + LINE_px;
}

/** All but title and notes. */
function cellHeight_px(cell: SheetCell): number {
  const figures_px = cell.figures ? cell.figures.length * LINE_px + GAP_px : 0;
  return pictureCellHeight_px(cell) + figures_px + MARGIN_px / 2;
}

function inRows<T>(cells: readonly T[], columns: number): T[][] {
  const rows: T[][] = [];
  for (let i = 0; i < cells.length; i += columns) rows.push(cells.slice(i, i + columns));
  return rows;
}

type Measure = Pick<OffscreenCanvasRenderingContext2D, 'measureText'>;

/** In lines of whole words; a word longer than a line has one to itself. */
export function wrapped(pen: Measure, text: string, most_px: number): string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(' ')) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (line !== '' && pen.measureText(longer).width > most_px) {
      lines.push(line);
      line = word;
    } else line = longer;
  }
  return [...lines, line];
}

function shortened(pen: Measure, text: string, most_px: number): string {
  if (pen.measureText(text).width <= most_px) return text;
  const letters = [...text];
  while (letters.length > 0 && pen.measureText(`${letters.join('')}…`).width > most_px) letters.pop();
  return `${letters.join('').trimEnd()}…`;
}

function withoutAlpha(rgba: Uint8ClampedArray): Uint8Array {
  const rgb = new Uint8Array((rgba.length / 4) * 3);
  for (let i = 0; i < rgba.length / 4; i++) rgb.set(rgba.subarray(4 * i, 4 * i + 3), 3 * i);
  return rgb;
}
