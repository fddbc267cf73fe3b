import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { DEFAULT_TONE_RANGE } from '../../../src/core/picture/tone-curve.ts';
import { HIGH_LANES } from '../../../src/editor/stop-rule/lane-size.ts';
import { lanesFor, type Stretch } from '../../../src/editor/stop-rule/lanes.ts';
import { type Part, SKY } from '../../../src/editor/stop-rule/mixed-reading.ts';
import { neighbourOf } from '../../../src/editor/stop-rule/neighbour.ts';
import { type LayoutRequest, layoutRule } from '../../../src/editor/stop-rule/rule-layout.ts';
import { rulePaths, shiftPath, stemsPath } from '../../../src/editor/stop-rule/rule-paths.ts';
import {
  beyond,
  nearestThird,
  ruleScale,
  ticksOf,
  whitePaper_stops,
} from '../../../src/editor/stop-rule/rule-scale.ts';
import { stackOf } from '../../../src/editor/stop-rule/stack.ts';
import { readingAt } from './support/readings.ts';

const scale = ruleScale(1000, DEFAULT_TONE_RANGE);

describe('the scale of the ruler', () => {
  it('has as many pixels for every stop, and finds back what stands at a place', () => {
    expect(scale.x_px(1) - scale.x_px(0)).toBeCloseTo(scale.x_px(-6) - scale.x_px(-7), 9);
    fc.assert(
      fc.property(fc.double({ min: -8, max: 5.5, noNaN: true }), (stops) => {
        expect(scale.stopsAt(scale.x_px(stops))).toBeCloseTo(stops, 9);
      }),
      { seed: 1 },
    );
  });

  it('ends where the camera does; what is further stands at the edge', () => {
    expect(scale.x_px(Number.NEGATIVE_INFINITY)).toBe(scale.x_px(-40));
    expect(scale.x_px(40)).toBeLessThan(1000);
    expect([-40, -8, 5.5, 40].map((stops) => beyond(stops, scale))).toEqual([-1, 0, 0, 1]);
  });

  it('marks thirds, and where there is no room for them whole stops', () => {
    // derived: −8 to 5⅓ in thirds is 41, −8 to 5 in stops 14.
    expect(ticksOf(scale)).toHaveLength(41);
    expect(ticksOf(ruleScale(200, DEFAULT_TONE_RANGE))).toHaveLength(14);
    expect(ticksOf(scale).filter(({ kind }) => kind === 'zero')).toEqual([{ stops: 0, kind: 'zero' }]);
  });

  it('has the white of paper where five times the grey card is white', () => {
    // derived: 0.9/0.18 = 5.
    expect(whitePaper_stops(DEFAULT_TONE_RANGE)).toBeCloseTo(5.5 - Math.log2(5), 12);
  });

  it('takes wants to the nearest third', () => {
    expect(nearestThird(-0.9)).toBe(-1);
    expect(nearestThird(0.4)).toBeCloseTo(1 / 3, 12);
  });
});

const stretches = fc
  .array(fc.tuple(fc.integer({ min: 0, max: 900 }), fc.integer({ min: 1, max: 200 })), { maxLength: 60 })
  .map((list) =>
    list.map(([from_px, width], i): Stretch => ({ id: `m${i}`, from_px, to_px: from_px + width })),
  );

/** As many as stand over the fullest place. */
function deepest(list: readonly Stretch[]): number {
  return Math.max(
    0,
    ...list.map((one) => list.filter((o) => o.from_px <= one.from_px && one.from_px < o.to_px).length),
  );
}

describe('lanes', () => {
  it('let none cover another, in as few as can be', () => {
    fc.assert(
      fc.property(stretches, (list) => {
        const { laneOf, count } = lanesFor(list, new Map(), false);
        for (const a of list) {
          for (const b of list) {
            if (a === b || laneOf.get(a.id) !== laneOf.get(b.id)) continue;
            expect(a.to_px <= b.from_px || b.to_px <= a.from_px).toBe(true);
          }
        }
        expect(count).toBe(deepest(list));
      }),
      { seed: 2 },
    );
  });

  it('keep needles where they were while others move, and close up at rest', () => {
    const list = [
      { id: 'a', from_px: 0, to_px: 100 },
      { id: 'b', from_px: 50, to_px: 150 },
    ];
    const before = lanesFor(list, new Map(), false).laneOf;
    expect([...before]).toEqual([
      ['a', 0],
      ['b', 1],
    ]);
    const apart = [list[0]!, { id: 'b', from_px: 200, to_px: 300 }];
    expect(lanesFor(apart, before, true).laneOf.get('b')).toBe(1);
    expect(lanesFor(apart, before, false).laneOf.get('b')).toBe(0);
    const withNew = [...list, { id: 'new', from_px: 0, to_px: 400 }];
    expect([...lanesFor(withNew, before, true).laneOf.entries()].slice(0, 2)).toEqual([...before]);
  });
});

describe('a needle', () => {
  const part = (of: Part['of'], share: number): Part => ({ of, share, illuminance_lx: share });

  it('is as high as its whole, each lamp by its share of the lux', () => {
    const pieces = stackOf([part('key', 0.75), part('fill', 0.25)], 40);
    expect(pieces).toEqual([
      { of: 'key', from_px: 0, to_px: 30 },
      { of: 'fill', from_px: 30, to_px: 40 },
    ]);
  });

  it('gathers at its top what is too small to be seen', () => {
    const pieces = stackOf([part('key', 0.9), part('a', 0.04), part('b', 0.04), part(SKY, 0.02)], 40);
    expect(pieces).toEqual([
      { of: 'key', from_px: 0, to_px: 36 },
      { of: null, from_px: 36, to_px: 40 },
    ]);
    expect(stackOf([], 40)).toEqual([]);
  });
});

const request = (stops: readonly number[], more: Partial<LayoutRequest> = {}): LayoutRequest => ({
  readings: stops.map((value, i) => readingAt(`m${i}`, value)),
  scale,
  labelWidth_px: () => 130,
  lanesInSight: 4,
  moving: false,
  before: null,
  ...more,
});

describe('the layout of the rule', () => {
  it('shows a few marks by name, and many by number', () => {
    expect(layoutRule(request([-2, 0, 1])).form).toBe('names');
    const many = layoutRule(request(Array.from({ length: 200 }, (_, i) => Math.sin(i) * 3)));
    expect(many.form).toBe('numbers');
    expect(many.needles).toHaveLength(200);
  });

  it('gives up names, then stops, before a lane is out of sight', () => {
    // Derived: with their ± needles take up some 175 px by name, 83 by number and stops, 71 by number alone.
    const stops = [0, 1, 2, 3, 4].map((i) => scale.stopsAt(scale.x_px(0) + 76 * i));
    const formIn = (lanesInSight: number) => layoutRule(request(stops, { lanesInSight })).form;
    expect(formIn(3)).toBe('names');
    expect(formIn(2)).toBe('numbers');
    expect(formIn(1)).toBe('bare');
    // Nothing fits into no lane: what scrolls in any case says its stops.
    expect(formIn(0)).toBe('numbers');
  });

  it('keeps labels on the ruler and off each other, wherever needles stand', () => {
    fc.assert(
      fc.property(fc.array(fc.double({ min: -14, max: 9, noNaN: true }), { maxLength: 30 }), (stops) => {
        const { needles } = layoutRule(request(stops));
        for (const a of needles) {
          const label_px = a.form === 'names' ? 142 : 50;
          expect(a.side === 'left' ? a.x_px - label_px : 0).toBeGreaterThanOrEqual(0);
          expect(a.side === 'right' ? a.x_px + label_px : 0).toBeLessThanOrEqual(1000);
          for (const b of needles) {
            if (a === b || a.lane !== b.lane) continue;
            expect(a.to_px <= b.from_px || b.to_px <= a.from_px).toBe(true);
          }
        }
      }),
      { seed: 3 },
    );
  });

  it('holds lanes, sides and form while something moves', () => {
    const before = layoutRule(request([-2, -1.9, 1, 1.1]));
    const moved = layoutRule(request([-2, -1.2, 1, 0.4], { moving: true, before }));
    const kept = ({ mixed, lane, side }: (typeof moved.needles)[number]) => [mixed.mark.id, lane, side];
    expect(moved.needles.map(kept)).toEqual(before.needles.map(kept));
  });

  it('draws no ± and an arrow for what is beyond the ends', () => {
    const [dark, white] = layoutRule(request([Number.NEGATIVE_INFINITY, 9])).needles;
    expect(dark).toMatchObject({ beyond: -1, band_px: null });
    expect(white).toMatchObject({ beyond: 1, band_px: null, side: 'left' });
  });

  it('spans ± about the needle', () => {
    const [needle] = layoutRule(request([1])).needles;
    expect(needle!.band_px![0]).toBeCloseTo(scale.x_px(0.5), 9);
    expect(needle!.band_px![1]).toBeCloseTo(scale.x_px(1.5), 9);
  });

  it('takes the keys along the ruler, and down the list of marks', () => {
    const { needles } = layoutRule(request([1, -2, 3]));
    expect(neighbourOf(needles, 'm0', 'ArrowLeft')).toBe('m1');
    expect(neighbourOf(needles, 'm0', 'ArrowRight')).toBe('m2');
    expect(neighbourOf(needles, 'm2', 'ArrowRight')).toBe('m2');
    expect(neighbourOf(needles, 'm0', 'ArrowDown')).toBe('m1');
    expect([neighbourOf(needles, 'm0', 'Home'), neighbourOf(needles, 'm0', 'End')]).toEqual(['m1', 'm2']);
    expect(neighbourOf(needles, 'm0', 'a')).toBeUndefined();
  });
});

describe('the drawing of the rule', () => {
  it('has one path for all pieces of a lamp', () => {
    const { needles } = layoutRule(request([-2, 0, 1]));
    const { pieces, outlines, initials } = rulePaths(needles, 132, HIGH_LANES);
    expect(pieces.map(({ of }) => of)).toEqual(['key']);
    expect(pieces[0]!.d.match(/M/g)).toHaveLength(3);
    expect(outlines.match(/M/g)).toHaveLength(3);
    expect(stemsPath(needles, 132, HIGH_LANES).match(/V132/g)).toHaveLength(3);
    expect(initials).toHaveLength(3);
  });

  it('draws what is wanted only for the marks that have a want', () => {
    const { needles } = layoutRule(request([-2, 0]));
    expect(shiftPath(needles, new Map([['m1', scale.x_px(1)]]), 132, HIGH_LANES)).toContain('H');
    expect(shiftPath(needles, new Map(), 132, HIGH_LANES)).toBe('');
  });
});
