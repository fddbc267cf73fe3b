import { describe, expect, it } from 'vitest';
import { riggingSheet } from '../../src/paperwork/rigging-sheet.ts';
import { compileScene } from '../../src/scene/compile/compile-scene.ts';
import { riggingScene } from '../../src/scene/rigging/rigging-scene.ts';
import { headOf, poweredScene } from '../support/powered-scenes.ts';

function sheet(stand: object | undefined, wind_m_s?: number) {
  const heads = { soft: headOf(undefined, { windArea_m2: 0.64, mass_kg: 6 }) };
  const lamp = { position_m: [0, 3, 0], aim_m: [0, 1, 5], ...(stand ? { stand } : {}) };
  const scene = poweredScene([['soft', 'soft', lamp]], [], { heads });
  const model = compileScene(scene, { photometry: new Map(), meshes: new Map() });
  return riggingSheet(riggingScene(scene, model, { wind_m_s }));
}

const STAND = { maxHeight_m: 3.5, footRadius_m: 0.5, mass_kg: 9, ballast_kg: 20 };

describe('the rigging sheet', () => {
  it('says when a stand begins to tip and what it lacks', () => {
    const { tables, warnings, heading } = sheet(STAND, 10);
    expect(heading).toBe('Base · stands and wind · wind of 10 m/s (36 km/h, 22 mph) · screening only');
    // derived: 46 N, 138 N·m; 35 kg × 9.81 × 0.25 = 86 N·m; 56.4 − 15 = 41.4, so 42 kg; √(86/138) × 10 = 7.9 m/s
    expect(tables[0]!.rows[1]).toEqual([
      ...['soft', '3 m', 'to 3.5 m', '46 N', '138 N·m', '86 N·m', '20 kg', '42 kg', '7.9 m/s', 'TIPS'],
    ]);
    expect(warnings[0]).toMatch(
      /^soft: begins to tip at 7\.9 m\/s .*; in 10 m\/s .* needs 42 kg of ballast, 22 kg more than it has/,
    );
  });

  it('gives the margin, and calls nothing firm', () => {
    // derived: 86/(138 × 0.36) = 1.7
    expect(sheet(STAND, 6).tables[0]!.rows[1]!.at(-1)).toBe('margin 1.7');
    expect(sheet(STAND, 0).tables[0]!.rows[1]!.at(-1)).toBe('no wind');
    expect(sheet(STAND).tables[0]!.rows[1]!.at(-1)).toBe('not known');
    expect(sheet(STAND).warnings[0]).toMatch(/^No wind given/);
  });

  it('says how far a lamp is above its stand, in both units', () => {
    const { warnings } = sheet({ ...STAND, maxHeight_m: 2.5 }, 0);
    // derived: 3 m = 9 ft 10 in, 2.5 m = 8 ft 2½ in to the half inch
    expect(warnings[0]).toBe(
      'soft: 3 m (9 ft 10 in) is 0.5 m above what its stand reaches, 2.5 m (8 ft 2½ in).',
    );
  });

  it('names what is missing', () => {
    expect(sheet({ maxHeight_m: 3.5 }, 5).warnings).toEqual([
      'Missing for soft: reach of the feet (footRadius_m of the stand), mass of the stand (mass_kg) and ballast (ballast_kg of the stand).',
    ]);
    expect(sheet(undefined, 5).warnings).toEqual(['No stand given, so not screened: soft.']);
    expect(sheet({ maxHeight_m: 3.5, footRadius_m: 0.5 }, 5).warnings.join(' ')).toMatch(
      /Missing for soft: mass/,
    );
  });

  it('always carries its caution', () => {
    const { footer, cautions } = sheet(STAND, 1);
    expect(footer.slice(-cautions.length)).toEqual(cautions);
    expect(cautions.join(' ')).toMatch(/without any safety factor/);
  });
});
