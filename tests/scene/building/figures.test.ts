import { describe, expect, it } from 'vitest';
import { figureLandmarks } from '../../../src/core/geometry/figure-landmarks.ts';
import { faceMark, rimMark, withItsMarks } from '../../../src/scene/building/figure-marks.ts';
import { makeFigure } from '../../../src/scene/building/make-figure.ts';
import { figureSpec } from '../../../src/scene/compile/figure-shapes.ts';
import { POSES } from '../../../src/scene/schema/figure.ts';
import { EMPTY, sceneNamed, seen, withMade } from './support.ts';

const quay = sceneNamed('night-quay');

describe('the marks of a figure', () => {
  it('are those that stand at its body, and at no other', () => {
    expect(withItsMarks(quay, 'ada')).toEqual(['ada', 'ada-face', 'ada-rim']);
    expect(withItsMarks(quay, 'ben')).toEqual(['ben', 'ben-face', 'ben-rim']);
    expect(withItsMarks(quay, 'nobody')).toEqual(['nobody']);
  });

  it('of two who stand close go to the nearer', () => {
    const crowd = {
      ...quay,
      figures: [
        ...quay.figures!,
        { ...quay.figures![0]!, id: 'twin', position_m: [-2.3, 0, 1.5] as [number, number, number] },
      ],
    };
    const all = [...withItsMarks(crowd, 'ada').slice(1), ...withItsMarks(crowd, 'twin').slice(1)];
    expect(all.sort()).toEqual(['ada-face', 'ada-rim']);
  });

  for (const pose of POSES)
    it(`are found again where a new one has them, ${pose}`, () => {
      const made = withMade(EMPTY, makeFigure(seen(EMPTY), pose, true));
      expect(withItsMarks(made, 'figure-1')).toEqual(['figure-1', 'figure-1-face', 'figure-1-rim']);
      const face = figureLandmarks(figureSpec(made.figures![0]!)).face.point_m;
      expect(Math.hypot(...made.marks![0]!.position_m.map((v, i) => v - face[i]!))).toBeLessThan(0.01);
    });
});

describe('a rim mark', () => {
  it('looks at the lamp that is most behind', () => {
    expect(rimMark(seen(quay), quay.figures![0]!)).toMatchObject({ facing: 'lamp:back', receptor: 'flat' });
  });

  it('looks away from the camera where no lamp is behind', () => {
    const { lamps: _, ...dark } = quay;
    const mark = rimMark(seen(dark), quay.figures![0]!);
    const [dx, dy, dz] = mark.facing as readonly number[];
    const { position_m } = quay.cameras![0]!;
    expect(
      dx! * (position_m[0] - mark.position_m[0]) + dz! * (position_m[2] - mark.position_m[2]),
    ).toBeLessThan(0);
    expect(dy).toBe(0);
  });
});

describe('a new figure', () => {
  it('looks at the camera, stands beside what is chosen, and has a name and an id of its own', () => {
    const first = withMade(quay, makeFigure(seen(quay, ['ben']), 'standing', false));
    const figure = first.figures!.at(-1)!;
    expect(figure).toMatchObject({ id: 'figure-1', name: 'Figure 1' });
    const [x, , z] = figure.position_m;
    expect(Math.hypot(x - 0.6, z + 1.3)).toBeLessThan(1.2);
    // Heading 0 is +z and 90 is +x: from here to the camera at (−9, 2.25).
    const toCamera_deg = (Math.atan2(-9 - x, 2.25 - z) * 180) / Math.PI;
    expect(Math.abs(((figure.heading_deg! - toCamera_deg + 540) % 360) - 180)).toBeLessThan(0.6);
    expect(withMade(first, makeFigure(seen(first, ['ben']), 'standing', false)).figures!.at(-1)!.id).toBe(
      'figure-2',
    );
  });

  it('gives its marks names that are free', () => {
    const once = { ...quay, marks: [...quay.marks!, faceMark(quay, quay.figures![0]!)] };
    expect(once.marks.at(-1)).toMatchObject({ id: 'ada-face-2', name: 'Ada, face 2' });
  });
});
