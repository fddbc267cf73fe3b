import type { LinearRgb } from './linear-rgb.ts';

/** Scene light as the camera sees it. Rows run from the top, pixels from the left, three components each. */
export interface LinearPicture {
  readonly width_px: number;
  readonly height_px: number;
  /** Linear RGB relative to the camera's zero: luminance 1 is L₀, middle grey. */
  readonly rgb: Float32Array | Float64Array;
}

/** A picture for a display or a file: sRGB as IEC 61966-2-1 encodes it, 8 bits a component, in the same order. */
export interface DisplayPicture {
  readonly width_px: number;
  readonly height_px: number;
  readonly rgb: Uint8Array;
}

/** Red, green and blue as a file stores them, 0 to 255. */
export type Rgb8 = readonly [red: number, green: number, blue: number];

/** RangeError unless the sides are whole numbers above zero and there are three components for each pixel. */
export function checkPicture({ width_px, height_px, rgb }: LinearPicture | DisplayPicture): void {
  checkSides(width_px, height_px);
  if (rgb.length !== 3 * width_px * height_px) {
    throw new RangeError(
      `picture of ${width_px} × ${height_px} px has ${rgb.length} components; it must have ${3 * width_px * height_px}`,
    );
  }
}

/** RangeError unless the sides of a picture are whole numbers above zero. */
export function checkSides(width_px: number, height_px: number): void {
  for (const [side, name] of [
    [width_px, 'wide'],
    [height_px, 'high'],
  ] as const) {
    if (!Number.isInteger(side) || side <= 0) {
      throw new RangeError(`picture is ${side} px ${name}; it must be a whole number above zero`);
    }
  }
}

/**
 * Colours every pixel by itself. RangeError when the sizes do not agree or a pixel is not a finite number, which names the
 * pixel: it was not rendered, and black would hide that.
 */
export function pixelwise(picture: LinearPicture, colourOf: (rgb: LinearRgb) => Rgb8): DisplayPicture {
  checkPicture(picture);
  const { width_px, height_px, rgb } = picture;
  const out = new Uint8Array(rgb.length);
  for (let i = 0; i < rgb.length; i += 3) {
    const linear: LinearRgb = [rgb[i]!, rgb[i + 1]!, rgb[i + 2]!];
    if (!Number.isFinite(linear[0] + linear[1] + linear[2])) {
      const pixel = i / 3;
      throw new RangeError(
        `pixel ${pixel % width_px}, ${Math.floor(pixel / width_px)} is (${linear.join(', ')}); ` +
          'every component must be a finite number, so the rendering went wrong there',
      );
    }
    out.set(colourOf(linear), i);
  }
  return { width_px, height_px, rgb: out };
}
