import { describe, expect, it } from 'vitest';
import { luminanceOfRgb } from '../../../src/core/picture/linear-rgb.ts';
import { DEFAULT_TONE_RANGE } from '../../../src/core/picture/tone-curve.ts';
import { contrastOf, meanContrastError_stops, meanRgb } from '../../../src/core/separation/contrast.ts';
import { BATCHES } from '../../../src/core/separation/edge-light.ts';
import { lightOf, sideOf } from './support.ts';

const SIGHT = { greyOf: luminanceOfRgb, zero_cd_m2: 12.5, range: DEFAULT_TONE_RANGE };
const grey = (luminance: number): [number, number, number] => [luminance, luminance, luminance];
const contrast = (inside: number, outside: number) =>
  contrastOf(sideOf(lightOf(grey(inside))), sideOf(lightOf(grey(outside))), SIGHT);

describe('contrast of an edge', () => {
  it('is log₂ of inside over outside, minus where the figure is the darker', () => {
    // derived: log₂(2/16) = −3; log₂(16/12.5) = 0.356
    expect(contrast(2, 16).stops).toBeCloseTo(-3, 12);
    expect(contrast(16, 2).stops).toBeCloseTo(3, 12);
    expect(contrast(2, 16).levels_stops[1]).toBeCloseTo(0.356, 3);
    expect(contrast(2, 16).merged).toBeNull();
  });

  it('is nothing between two blacks or two whites of the camera', () => {
    // derived: floor 12.5/256 = 0.0488 cd/m², white 12.5·2^5.5 = 566 cd/m²
    expect(contrast(0.001, 0.04)).toMatchObject({ stops: 0, merged: 'black', numerical_stops: 0 });
    expect(contrast(0, 0)).toMatchObject({ stops: 0, merged: 'black' });
    expect(contrast(600, 60_000)).toMatchObject({ stops: 0, merged: 'white' });
  });

  it('counts from the floor where one side is black', () => {
    // derived: 12.5/256 is the floor; 12.5/16 stands 4 stops over it, whatever the black is
    expect(contrast(0, 12.5 / 16)).toMatchObject({ stops: -4, merged: null });
  });

  it('states the error of both sides', () => {
    // derived: batches ±2 % in turn: deviation 0.02·√(16/15), over √16, times t₁₅ = 2.131: ±1.1 %, 0.0158 stop a side
    const side = () => sideOf(lightOf(grey(4), 0.02));
    const { inside_stops, numerical_stops } = contrastOf(side(), side(), SIGHT);
    expect(inside_stops).toBeCloseTo(0.0158, 3);
    expect(numerical_stops).toBeCloseTo(0.0158 * Math.SQRT2, 3);
  });

  it('gives every cell the glow of its neighbourhood', () => {
    const [dark, bright] = [lightOf(grey(1)), lightOf(grey(3))];
    for (let k = 0; k < 3 * BATCHES; k++) bright.shared[k] = 4;
    const near = [dark, bright];
    // derived: 4 cd/m² read in one of two cells is 2 in each: 1 + 2, and 2 + 2 over both
    expect(meanRgb({ lights: [dark], near: [near], weights: [1] })[1]).toBeCloseTo(3, 12);
    expect(meanRgb({ lights: near, near: [near, near], weights: [1, 1] })[1]).toBeCloseTo(4, 12);
  });

  it('knows that errors shared by all pieces do not average out', () => {
    const shared = sideOf(lightOf(grey(4), 0.02));
    const steady = sideOf(lightOf(grey(8)));
    const piece = { inside: shared, outside: steady };
    // derived: four pieces that err together are as sure as one: ±1.1 %, 0.0154 stop to first order
    expect(meanContrastError_stops([piece, piece, piece, piece], SIGHT)).toBeCloseTo(0.0158, 3);
    // derived: and what both sides share drops out of their ratio
    expect(meanContrastError_stops([{ inside: shared, outside: shared }], SIGHT)).toBeCloseTo(0, 12);
  });
});
