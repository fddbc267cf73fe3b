import { describe, expect, it } from 'vitest';
import { glintSheet } from '../../src/paperwork/glint-sheet.ts';
import { halfLastDigit } from '../tolerances.ts';
import { glintsOf, shinySide } from './support/shiny-side.ts';

describe('S7: whether exposure or a polariser gets rid of it', () => {
  // All at one height, as the sums of the story have it, the lamp aimed at where it is mirrored.
  const scene = shinySide({ camera_m: [0, 6, 1.5], lamp_m: [25, 2, 1.5], aim_m: [18.75, 0, 1.5] });
  const report = glintsOf(scene);
  const [glint] = report.glints;

  it('mirrors at 72.3° incidence with Rs 0.341, Rp 0.066, mean 0.203', () => {
    // derived: grazing atan(8/25) = 17.74°; Fresnel for n = 1.5 at 72.26°
    expect(Math.abs(glint!.incidence_deg - 72.26)).toBeLessThan(halfLastDigit(2));
    expect(Math.abs(glint!.polarised.s - 0.341)).toBeLessThan(halfLastDigit(3));
    expect(Math.abs(glint!.polarised.p - 0.066)).toBeLessThan(halfLastDigit(3));
    expect(Math.abs(glint!.reflectance - 0.203)).toBeLessThan(halfLastDigit(3));
  });

  it('is 402 000 cd/m², +15 stops', () => {
    // derived: 140 000/(π·0.15²)·0.203 = 402 000; log₂(402 000/12.5) = 14.97
    expect(Math.abs(glint!.mirror_cd_m2 / 402_000 - 1)).toBeLessThan(0.005);
    // What the smoothest finish of the model sends aside is under 2 %.
    expect(Math.abs(glint!.luminance_cd_m2 / 402_000 - 1)).toBeLessThan(0.02);
    expect(Math.abs(glint!.stops - 15)).toBeLessThan(0.1);
  });

  it('keeps +12 stops behind an ideal polariser, +13 when the scene is opened up for it', () => {
    // derived: Rp/2 against (Rs + Rp)/2: log₂(0.066/0.407) = −2.6
    expect(Math.abs(glint!.polarised_stops - glint!.stops + 2.6)).toBeLessThan(halfLastDigit(1));
    expect(Math.abs(glint!.polarised_stops - 12.35)).toBeLessThan(0.1);
    expect(Math.abs(glint!.polarised_stops + 1 - 13.35)).toBeLessThan(0.1);
  });

  it('is a matter of geometry or a flag, and that is said', () => {
    const [white] = glintSheet(report).blocks;
    expect(white!.lines[0]!.text).toMatch(
      /leaves \+12\.[34], \+13\.[34] when the scene is opened up for it: geometry or a flag only\./,
    );
  });
});
