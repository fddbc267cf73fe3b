import { describe, expect, it } from 'vitest';
import { glintSheet } from '../../src/paperwork/glint-sheet.ts';
import { glintsOf, shinySide } from './support/shiny-side.ts';

const CAMERA = [0, 6, 1.5] as const;

/** The lamp stuck at 25 m along, 2 m out, at a height; aimed at where it is mirrored, to be as bright as may be. */
function at(height: number, more: Partial<Parameters<typeof shinySide>[0]> = {}) {
  const aim = 1.5 + 0.75 * (height - 1.5);
  return shinySide({ camera_m: CAMERA, lamp_m: [25, 2, height], aim_m: [18.75, 0, aim], ...more });
}

describe('S6: a lamp raised until its glint is gone', () => {
  it('leaves a flat side of 3.0 m over its top edge at 3.5 m', () => {
    // derived: 1.5 + 1.5·8/6 = 3.5: then the centre mirrors at 1.5 + 0.75·2 = 3.0. The face's lower rim, 0.15 m under the
    // centre, needs as much more.
    const kind = (height: number) => glintsOf(at(height)).glints[0]?.kind;
    const share = (height: number) => glintsOf(at(height)).glints[0]?.faceShare;
    expect(share(3.3)).toBe(1);
    expect(share(3.5)).toBeGreaterThan(0.4);
    expect(share(3.5)).toBeLessThan(0.6);
    expect(kind(3.64)).toBe('image');
    expect(kind(3.66)).not.toBe('image');
  });

  it.each([
    ['3:2', 1.5, 10.07],
    ['16:9', 16 / 9, 8.73],
  ])('leaves a %s frame over its top at %f: %f m, lamp and mirror image together', (_, aspect, height) => {
    // derived: 1.5 + 25·12/35 = 10.07; 1.5 + 25·10.125/35 = 8.73. A wall without end carries the image all the way.
    const places = (off: number) => {
      const { glints, lamps } = glintsOf(at(height + off, { wallHeight_m: 20, aspect }));
      const [lamp, glint] = [lamps[0]!, glints[0]!];
      expect(lamp.inFrame).toBe(glint.inFrame);
      return { lamp: lamp.pixel![1], image: glint.pixel![1], inFrame: glint.inFrame };
    };
    // The centre of the lamp crosses the edge there; the whole of it, 0.3 m high, is in 0.2 m below and out 0.2 m above.
    expect(places(-0.01).lamp).toBeGreaterThan(0);
    expect(places(0.01).lamp).toBeLessThan(0);
    for (const off of [-0.2, 0.2]) {
      const { lamp, image, inFrame } = places(off);
      expect(Math.abs(lamp - image)).toBeLessThan(1e-9);
      expect(inFrame).toBe(off < 0);
    }
  });

  it('still shows in a rounded roof, smaller, and that is said', () => {
    const flat = glintsOf(at(3.2, { roof_m: 0.4 }));
    expect(flat.glints[0]!.place.side).toBe('right side');
    const raised = glintsOf(at(3.75, { roof_m: 0.4 }));
    const [glint] = raised.glints;
    expect(glint).toMatchObject({ kind: 'image', burns: true, approximate: true });
    expect(glint!.place.side).toBe('right roof edge');
    expect(glint!.patch!.across_m).toBeLessThan(0.5 * flat.glints[0]!.patch!.across_m);
    const [white] = glintSheet(raised).blocks;
    expect(white!.heading).toBe('White in frame, worst first');
    expect(white!.lines[0]!.text).toMatch(
      /^Backlight mirrors in Vehicle, right roof edge, .*curved, so about/,
    );
  });
});
