import type { DisplayPicture, Rgb8 } from '../../core/picture/picture.ts';

/** Our own letters of 5 × 7 dots: the digits and the signs of a scale of stops. */
const GLYPHS: Readonly<Record<string, readonly string[]>> = {
  '0': ['.###.', '#...#', '#...#', '#...#', '#...#', '#...#', '.###.'],
  '1': ['..#..', '.##..', '#.#..', '..#..', '..#..', '..#..', '#####'],
  '2': ['.###.', '#...#', '....#', '..##.', '.#...', '#....', '#####'],
  '3': ['####.', '....#', '....#', '.###.', '....#', '....#', '####.'],
  '4': ['...#.', '..##.', '.#.#.', '#..#.', '#####', '...#.', '...#.'],
  '5': ['#####', '#....', '####.', '....#', '....#', '#...#', '.###.'],
  '6': ['..##.', '.#...', '#....', '####.', '#...#', '#...#', '.###.'],
  '7': ['#####', '....#', '...#.', '...#.', '..#..', '..#..', '..#..'],
  '8': ['.###.', '#...#', '#...#', '.###.', '#...#', '#...#', '.###.'],
  '9': ['.###.', '#...#', '#...#', '.####', '....#', '...#.', '.##..'],
  '+': ['.....', '..#..', '..#..', '#####', '..#..', '..#..', '.....'],
  '\u2212': ['.....', '.....', '.....', '#####', '.....', '.....', '.....'],
  '<': ['...#.', '..#..', '.#...', '#....', '.#...', '..#..', '...#.'],
  '>': ['.#...', '..#..', '...#.', '....#', '...#.', '..#..', '.#...'],
  ' ': ['.....', '.....', '.....', '.....', '.....', '.....', '.....'],
};
export const GLYPH_HEIGHT_dots = 7;
const GLYPH_WIDTH = 5;
const ADVANCE = GLYPH_WIDTH + 1;

/** Width of the text when each dot of a letter is `dot` pixels. */
export function textWidth_px(text: string, dot: number): number {
  return (text.length * ADVANCE - 1) * dot;
}

/** Writes into the picture from its left and top pixel; what falls outside is left out. RangeError for a letter not drawn yet. */
export function writeText(
  { width_px, height_px, rgb }: DisplayPicture,
  text: string,
  left: number,
  top: number,
  dot: number,
  ink: Rgb8,
): void {
  for (const [i, letter] of [...text].entries()) {
    const rows = GLYPHS[letter];
    if (!rows)
      throw new RangeError(`no letter "${letter}" in the small font; it has ${Object.keys(GLYPHS).join('')}`);
    const x0 = left + i * ADVANCE * dot;
    for (let y = 0; y < GLYPH_HEIGHT_dots * dot; y++) {
      for (let x = 0; x < GLYPH_WIDTH * dot; x++) {
        const inside = x0 + x >= 0 && x0 + x < width_px && top + y >= 0 && top + y < height_px;
        const dotSet = rows[Math.floor(y / dot)]![Math.floor(x / dot)] === '#';
        if (inside && dotSet) rgb.set(ink, 3 * ((top + y) * width_px + x0 + x));
      }
    }
  }
}
