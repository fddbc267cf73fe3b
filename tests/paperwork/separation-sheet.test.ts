import { describe, expect, it } from 'vitest';
import { separationSheet } from '../../src/paperwork/separation-sheet.ts';
import type { ConversionRow } from '../../src/scene/separation/conversions.ts';
import type {
  OutlineReport,
  SeparationReport,
  StretchReport,
} from '../../src/scene/separation/separation-report.ts';
import type { WardrobeRow } from '../../src/scene/separation/wardrobe.ts';

const WORST: StretchReport = {
  part: 'left shoulder',
  side: 'frame right',
  stops: -0.2,
  numerical_stops: 0.1,
  merged: null,
  pixel: [0.5, 0.4],
  behind: 'Boat',
  behindGlow: false,
  length: 0.05,
};
const OUTLINE: OutlineReport = {
  share_over_1_stop: 0.64,
  share_range: [0.5, 0.71],
  median_stops: 1.4,
  lighter_share: 0.1,
  merges: false,
  deltaE: 24,
  deltaE_of_colour: 14,
  haze: { inside: 0.1, outside: 0.2, lamp: { id: 'back', name: 'Backlight' } },
  uncertainty: { numerical_stops: 0.12, input_stops: 0.16 },
  worst: WORST,
  stretches: [WORST],
  samples: [],
};

function report(outline: Partial<OutlineReport> | null, more = {}): SeparationReport {
  return {
    keyfall: 1,
    title: 'T',
    setup: null,
    camera: 'a',
    monochrome: null,
    exposure: {
      fNumber: 4,
      shutter_s: 0.02,
      iso: 800,
      nd_stops: 0,
      loss_stops: 0,
      calibration: { flat: 250, dome: 330, reflected: 12.5 },
      zero: { flat_lx: 250, dome_lx: 330, luminance_cd_m2: 12.5 },
    },
    range: { floor_stops: -8, white_stops: 5.5 },
    corrected: null,
    figures: [
      {
        id: 'ada',
        name: 'Ada',
        outOfFrame: 0,
        hidden: 0,
        outline: outline && { ...OUTLINE, ...outline },
        ...more,
      },
    ],
  };
}

const said = (outline: Partial<OutlineReport> | null, more = {}) =>
  separationSheet(report(outline, more)).findings;

describe('the separation sheet', () => {
  it('says how much stands out and where it is worst, with its ±', () => {
    // derived: √(0.12² + 0.16²) = 0.2
    expect(said({})).toEqual([
      'Ada: 64 % of the outline stands out by 1 stop or more (±0.2 stop). ' +
        'Worst: left shoulder (frame right), 0.2 stop darker than Boat behind it (merges).',
    ]);
  });

  it('tells lighter from darker, glow from a surface, black from black', () => {
    const worst = (change: Partial<StretchReport>) => said({ worst: { ...WORST, ...change } })[0]!;
    expect(worst({ stops: 1.4 })).toContain('1.4 stops lighter than Boat behind it.');
    expect(worst({ stops: 0.94 })).toContain('0.9 stop lighter than Boat behind it (marginal)');
    expect(worst({ stops: 0.01 })).toContain('as bright as Boat behind it (merges)');
    expect(worst({ behindGlow: true })).toContain('darker than the glow of haze before Boat');
    expect(worst({ merged: 'black', stops: 0 })).toContain(
      'black against Boat, black too (both under the camera’s noise floor)',
    );
    expect(worst({ merged: 'white', stops: 0 })).toContain('white too');
  });

  it('says that it merges, and what could help', () => {
    const findings = said({ share_over_1_stop: 0.2, merges: true, haze: { ...OUTLINE.haze, inside: 0.8 } });
    expect(findings[0]).toContain('Merges.');
    expect(findings[1]).toBe('Ada: colour helps where brightness does not (ΔE 14 at equal brightness).');
    expect(findings[2]).toBe(
      'Ada: 80 % of what is seen on the figure is haze glowing before it. Thin the haze there or turn Backlight off the line of sight before changing cloth.',
    );
    expect(said({ merges: true, deltaE_of_colour: 3 })).toHaveLength(1);
  });

  it('says why there is nothing to say', () => {
    expect(said(null, { outOfFrame: 1 })).toEqual([
      'Ada: out of this camera’s frame, so nothing to separate.',
    ]);
    expect(said(null, { hidden: 1 })[0]).toContain(
      'hidden behind other things (100 % of the outline in frame)',
    );
    expect(separationSheet(report(null)).tables).toEqual([]);
  });

  it('names the best cloth, or that none helps, or that none is needed', () => {
    const row = (name: string, share_over_1_stop: number, worn = false): WardrobeRow => ({
      material: name,
      name,
      worn,
      share_over_1_stop,
      median_stops: 1,
      lighter_share: 0,
      worst: { part: 'head', stops: -0.5, numerical_stops: 0.1 },
    });
    const sheet = (...rows: WardrobeRow[]) =>
      separationSheet(report({}), { wardrobe: new Map([['ada', rows]]) });
    const last = (...rows: WardrobeRow[]) => sheet(...rows).findings.at(-1);
    expect(last(row('Linen', 0.9), row('Wool', 0.4, true))).toBe(
      'Ada: Linen reads best (90 % over 1 stop, against 40 % as worn).',
    );
    expect(last(row('Linen', 0.9), row('Wool', 0.88, true))).toContain(
      'what is worn reads as well as any cloth (88 %',
    );
    expect(last(row('Linen', 0.3), row('Wool', 0.1, true))).toContain(
      'no cloth keeps this figure from merging; Linen comes nearest',
    );
    expect(sheet(row('Wool', 0.4, true)).tables[1]!.rows[1]![0]).toBe('Wool (worn)');
  });

  it('names the best conversion with its noise, or that none is better', () => {
    const row = (conversion: string, share_over_1_stop: number, plain = false): ConversionRow => ({
      conversion,
      plain,
      share_over_1_stop,
      median_stops: 1,
      lighter_share: 0,
      noise_stops: 0.14,
    });
    const last = (...rows: ConversionRow[]) =>
      separationSheet(report({}), { conversions: new Map([['ada', rows]]) }).findings.at(-1);
    expect(last(row('red filter', 0.9), row('plain luminance', 0.5, true))).toBe(
      'Ada: red filter separates best (90 % over 1 stop, against 50 % by plain luminance; noise +0.1 stop).',
    );
    expect(last(row('red filter', 0.52), row('plain luminance', 0.5, true))).toContain(
      'no conversion separates better',
    );
  });

  it('prints its conventions: the floor, the rule, the ±', () => {
    const footer = separationSheet(report({})).footer.join('\n');
    for (const words of [
      '4‰ of the frame',
      'less than 50 %',
      '−8.0 stops',
      '+5.5',
      '12.5 cd/m²',
      'CIEDE2000',
      '95 %',
    ])
      expect(footer).toContain(words);
    expect(footer).not.toContain('of the night would');
    expect(separationSheet({ ...report({}), corrected: { readings: 2 } }).footer.join()).toContain(
      '2 readings of the night',
    );
    expect(separationSheet({ ...report({}), monochrome: 'red filter' }).heading).toContain(
      'monochrome, red filter',
    );
  });
});
