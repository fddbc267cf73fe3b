import { describe, expect, it } from 'vitest';
import { figureParts } from '../../../src/core/geometry/figure.ts';
import { compileScene } from '../../../src/scene/compile/compile-scene.ts';
import { figureSpec } from '../../../src/scene/compile/figure-shapes.ts';
import { LIBRARY } from '../../../src/scene/library/library.ts';
import type { SceneDocument } from '../../../src/scene/schema/document.ts';
import { bodyPartNames } from '../../../src/scene/separation/body-part.ts';
import { conversionRows } from '../../../src/scene/separation/conversions.ts';
import { readSeparation } from '../../../src/scene/separation/read-separation.ts';
import { separationReport } from '../../../src/scene/separation/separation-report.ts';
import { CLOTHS } from '../../../src/scene/separation/wardrobe.ts';

const FILES = { photometry: new Map(), meshes: new Map() };

/** A person who looks at the camera, under an even sky, before a wall; nothing else gives light. */
function underSky(changes: Partial<SceneDocument> = {}): SceneDocument {
  return {
    keyfall: 1,
    title: 'Under the sky',
    site: { sky: { illuminance_lx: 100, cct_K: 6500 } },
    solids: [
      {
        id: 'ground',
        name: 'Ground',
        shape: 'box',
        position_m: [0, -0.05, 0],
        material: 'concrete',
        size_m: [40, 0.1, 40],
      },
      {
        id: 'wall',
        name: 'Wall',
        shape: 'panel',
        position_m: [0, 0.6, -4],
        material: 'black-cloth',
        size_m: [30, 1.2],
      },
    ],
    figures: [
      {
        id: 'ada',
        name: 'Ada',
        position_m: [0, 0, 0],
        skin: 'wool-grey',
        upper: 'wool-grey',
        lower: 'wool-grey',
      },
    ],
    cameras: [
      {
        id: 'a',
        position_m: [0, 1, 8],
        look_m: [0, 0.9, 0],
        sensor_mm: [36, 24],
        focal_mm: 70,
        fNumber: 2.8,
        shutter_s: 0.02,
        iso: 800,
      },
    ],
    ...changes,
  };
}

const reportOf = (document: SceneDocument, request = {}) =>
  separationReport(readSeparation(document, compileScene(document, FILES), request));

describe('separation of a scene', () => {
  const report = reportOf(underSky());
  const outline = report.figures[0]!.outline!;

  it('reads at least a hundred pieces, evenly along the outline', () => {
    const { samples } = outline;
    expect(samples.length).toBeGreaterThanOrEqual(100);
    expect(outline.stretches.reduce((sum, { length }) => sum + length, 0)).toBeCloseTo(1, 9);
    // derived: neighbours are one piece apart: the outline over its pieces
    const aspect = 1.5;
    const steps = samples.slice(1).map(({ pixel: [u, v] }, i) => {
      const [pu, pv] = samples[i]!.pixel;
      return Math.hypot((u - pu) * aspect, v - pv);
    });
    const middle = [...steps].sort((a, b) => a - b)[Math.floor(steps.length / 2)]!;
    expect(steps.filter((step) => step < 1.1 * middle).length / steps.length).toBeGreaterThan(0.9);
  });

  it('names parts of the body by its own left and right, and where they are in frame', () => {
    const sides = (part: string) => outline.stretches.filter((s) => s.part === part).map(({ side }) => side);
    // The person looks at the camera: own left is frame right.
    expect(new Set(sides('left shoulder'))).toEqual(new Set(['frame right']));
    expect(new Set(sides('right shoulder'))).toEqual(new Set(['frame left']));
    expect(sides('head').length).toBeGreaterThanOrEqual(2);
    const turned = reportOf(underSky({ figures: [{ ...underSky().figures![0]!, heading_deg: 180 }] }));
    const left = turned.figures[0]!.outline!.stretches.filter((s) => s.part === 'left shoulder');
    expect(left.every(({ side }) => side === 'frame left')).toBe(true);
  });

  it('finds grey wool lighter than a black wall and darker than the sky', () => {
    // The wall's top is seen against the figure at 1 + 0.2·8/12 = 1.13 m: thighs are before it, head and shoulders over it.
    const at = (...parts: string[]) => outline.stretches.filter(({ part }) => parts.includes(part));
    const thighs = at('left thigh', 'right thigh');
    const heads = at('head', 'left shoulder', 'right shoulder');
    expect(new Set(thighs.map(({ behind }) => behind))).toEqual(new Set(['Wall']));
    expect(new Set(heads.map(({ behind }) => behind))).toEqual(new Set(['the sky']));
    // derived: 0.14 against 0.02 is 2.8 stops; both stand open to the same sky and ground, the leg less, for what the other leg and the hands take
    for (const { stops } of thighs) {
      expect(stops).toBeGreaterThan(0.8);
      expect(stops).toBeLessThan(2.8);
    }
    // derived: L_sky = E/π; a surface of 0.14 can be no brighter than 0.14 of that: −2.8 stops at best
    for (const { stops, numerical_stops } of heads) expect(stops).toBeLessThan(-2.8 + numerical_stops);
  });

  it('has no more to say by colour where all is grey', () => {
    expect(outline.deltaE_of_colour).toBeLessThan(2);
    expect(outline.haze).toEqual({ inside: 0, outside: 0, lamp: null });
    expect(outline.uncertainty.input_stops).toBeCloseTo(0.5, 1);
  });

  it('is the same to the last digit every time', () => {
    expect(reportOf(underSky())).toEqual(report);
  });

  it('gives the same in every conversion where all is grey, for the price of noise', () => {
    const document = underSky();
    const read = readSeparation(document, compileScene(document, FILES));
    const rows = conversionRows(read, read.figures[0]!);
    const plain = rows.find((row) => row.plain)!;
    // derived: neutrals keep their luminance; the sky's 6500 K under a balance for 5600 K is nearly one
    for (const row of rows)
      expect(Math.abs(row.median_stops - plain.median_stops), row.conversion).toBeLessThan(0.1);
    expect(rows.find((row) => row.conversion === 'blue filter')!.noise_stops).toBeGreaterThan(
      plain.noise_stops,
    );
  });
});

describe('names on the body', () => {
  it('has one for every part, shoulders at both ends of the collar', () => {
    const figure = { id: 'f', position_m: [1, 0, 2] as [number, number, number], heading_deg: 40 };
    const nameOf = bodyPartNames(figure);
    const parts = figureParts(figureSpec(figure));
    const far: [number, number, number] = [99, 0, 0];
    const names = parts.map((_, i) => nameOf(i, far));
    expect(names).toContain('head');
    expect(names).toContain('hips');
    expect(names).toContain('left side');
    expect(names.some((name) => name.includes(','))).toBe(false);
    const arm = parts.findIndex(({ name }) => name === 'right upper arm');
    const { shape } = parts[arm]!;
    const joint = shape.placement.origin_m.map(
      (v, k) => v - (shape.kind === 'capsule' ? shape.halfLength_m : 0) * shape.placement.y[k]!,
    ) as [number, number, number];
    expect(nameOf(arm, joint)).toBe('right shoulder');
    expect(nameOf(arm, far)).toBe('right upper arm');
  });
});

describe('wardrobe', () => {
  it('holds materials that the library has', () => {
    for (const cloth of CLOTHS) expect(Object.hasOwn(LIBRARY.materials, cloth), cloth).toBe(true);
  });
});
