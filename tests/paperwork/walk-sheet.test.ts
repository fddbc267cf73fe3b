import { describe, expect, it } from 'vitest';
import { walkSheet } from '../../src/paperwork/walk-sheet.ts';
import { compileScene } from '../../src/scene/compile/compile-scene.ts';
import { type WalkRequest, walkReport } from '../../src/scene/walk/walk-report.ts';
import { chosenWalker } from '../../src/scene/walk/walker.ts';
import { edited, opened, smallScene } from '../support/scenes.ts';

function sheet(
  changes: Record<string, unknown> = {},
  request: WalkRequest = {},
  nameOf?: (id: string) => string,
) {
  const path = {
    id: 'cross',
    name: 'Crossing',
    of: 'walker',
    points: [
      { t_s: 0, position_m: [-2, 0, 2] },
      { t_s: 4, position_m: [2, 0, 2] },
    ],
  };
  const document = opened(edited(smallScene(), { paths: [path], ...changes }));
  const model = compileScene(document, { photometry: new Map(), meshes: new Map() });
  return walkSheet(walkReport(document, model, chosenWalker(document), { step_s: 1, ...request }), nameOf);
}

describe('the strip chart', () => {
  it('has a row each step, with the stops as a strip and every lamp', () => {
    const { heading, strip } = sheet();
    expect(heading).toBe('Base · path cross: Crossing · camera a · 1/50 s');
    expect(strip[0]).toEqual([
      ...['Time', 'x', 'z', 'Stops', expect.stringMatching(/^−6 +0 +\+6$/), 'key', 'Shades', 'Blur', 'Frame'],
    ]);
    expect(strip).toHaveLength(6);
    for (const row of strip.slice(1)) {
      expect(row[4]).toHaveLength(25);
      expect(row[4]!.match(/#/g)).toHaveLength(1);
    }
  });

  it('goes by names where they are given', () => {
    const document = opened(smallScene());
    const named = sheet({}, {}, (id) => `the ${id}`);
    expect(document.lamps!.map(({ id }) => id)).toEqual(['key']);
    expect(named.strip[0]![5]).toBe('the key');
    expect(named.findings[0]).toContain('from the key,');
  });

  it('puts the mark where the stops are, half a stop a character, and arrows beyond', () => {
    const { strip } = sheet();
    const stops = Number(strip[3]![3]!.replace('−', '-'));
    expect(strip[3]![4]!.indexOf('#')).toBe(12 + Math.round(2 * stops));
    expect(sheet({ 'cameras.0.nd_stops': 12 }).strip[1]![4]).toMatch(/^</);
    expect(sheet({ 'cameras.0.iso': 8_000_000 }).strip[1]![4]).toMatch(/>$/);
  });

  it('says in sentences what is extreme, shaded and blurred', () => {
    const findings = sheet({}, { step_s: 0.1 }).findings.join('\n');
    expect(findings).toMatch(
      /^Brightest at \d\.\d s \(x .*, z 2\.0\): .* stops, 100 % of it from key, \d.* m away\.$/m,
    );
    expect(findings).toMatch(/^Shades face from \d\.\d to \d\.\d s \(\d\.\d\d s, \d+ frames at 25 fps\): /m);
    expect(findings).toMatch(/px needs 1\/\d+ s \(−\d\.\d stops\), or hold still\.$/m);
  });

  it('says when nothing is shaded and no one is seen', () => {
    const far = {
      'paths.0.points': [
        { t_s: 0, position_m: [-2, 0, 60] },
        { t_s: 1, position_m: [2, 0, 60] },
      ],
    };
    const { findings } = sheet(far);
    expect(findings).toContain('The walker shades no mark.');
    expect(findings).toContain('Never seen in this frame.');
  });

  it('states its conventions', () => {
    const text = sheet().footer.join(' ');
    expect(text).toContain('dome to the camera, 1.5 m over the path');
    expect(text).toContain('Bounce and glow of haze are not counted');
  });
});
