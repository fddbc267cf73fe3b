import { describe, expect, it } from 'vitest';
import { powerSheet } from '../../src/paperwork/power-sheet.ts';
import { powerScene } from '../../src/scene/power/power-scene.ts';
import { HEADS, headOf, poweredScene } from '../support/powered-scenes.ts';

type Lamps = Parameters<typeof poweredScene>[0];

function sheet(lamps: Lamps, supplies: readonly object[], heads: object = HEADS, request: object = {}) {
  return powerSheet(powerScene(poweredScene(lamps, supplies, { heads }), request));
}

const mains = (more: object = {}) => ({
  id: 'wall',
  name: 'Wall',
  kind: 'mains',
  volts: 230,
  breaker_A: 16,
  ...more,
});
const on = { supply: 'wall' };

describe('the power sheet', () => {
  it('heads with the sums, and answers for every supply', () => {
    const { heading, tables } = sheet(
      [['a', 'led', on]],
      [mains({ cable: { length_m: 30, area_mm2: 2.5 } })],
    );
    expect(heading).toBe('Base · power · 165 W, 174 VA in all · every lamp that is on, at full output');
    expect(tables[0]!.rows).toEqual([
      ['Supply', 'volts', 'W', 'VA', 'draws', 'for hours', 'used', 'drop', '', 'answer'],
      ['Wall', '230', '165', '174', '0.8 A', '12.8 A', '6 %', '0.3 V', '0.1 %', 'within'],
    ]);
  });

  it('has a row for each of three phases', () => {
    const [supplies] = sheet([['a', 'led', on]], [mains({ phases: 3 })]).tables;
    expect(supplies!.rows.map(([name]) => name)).toEqual([
      'Supply',
      'Wall',
      '  phase 1',
      '  phase 2',
      '  phase 3',
    ]);
  });

  it('never says within where a load or a limit is not known', () => {
    const heads = { ...HEADS, mystery: headOf(undefined) };
    const answers = (lamps: Lamps, supply: object) =>
      sheet(lamps, [supply], heads).tables[0]!.rows[1]!.at(-1);
    expect(answers([['a', 'mystery', on]], mains())).toBe('not known');
    expect(answers([['a', 'led', on]], { ...mains(), breaker_A: undefined })).toBe('not known');
    expect(answers([['a', 'mystery', { ...on, on: false }]], mains())).toBe('within');
  });

  it('defers to local codes and a qualified person, whatever the answer', () => {
    for (const supplies of [[], [mains()]]) {
      const { footer, cautions } = sheet([['a', 'led']], supplies);
      expect(footer.slice(-cautions.length)).toEqual(cautions);
      expect(cautions[0]).toMatch(/Local codes/);
      expect(cautions.join(' ')).toMatch(/qualified person/);
    }
  });

  it.each<[string, Lamps, object, RegExp]>([
    ['a limit nearly reached', [['a', 'near', on]], mains(), /12\.5 A of 12\.8 A is nearer than nameplates/],
    [
      'lamps that are off',
      [
        ['a', 'discharge', on],
        ['b', 'discharge', { ...on, on: false }],
      ],
      mains(),
      /with b switched on as well it would be 18\.4 A, over 12\.8 A/,
    ],
    [
      'a drop that passes only cold',
      [['a', 'discharge', on]],
      mains({ cable: { length_m: 50, area_mm2: 2.5 } }),
      /drop of 2\.8 % holds for cold, solid copper; .* may reach 3\.8 %/,
    ],
    ['no cable', [['a', 'led', on]], mains(), /no cable given, so its voltage drop is not known/],
    [
      'no breaker',
      [['a', 'led', on]],
      { id: 'wall', kind: 'mains', volts: 230 },
      /neither breaker_A nor rating_kVA given/,
    ],
    [
      'a battery that does not last',
      [['a', 'led', on]],
      { id: 'wall', kind: 'battery', volts: 28, capacity_Wh: 500 },
      /lasts 2\.1 h in the cold, not 6 h/,
    ],
    [
      'volts between phases',
      [['a', 'led', on]],
      mains({ phases: 3, volts: 400 }),
      /400 V reads like volts between two phases; .* 231 V/,
    ],
    [
      'third harmonics (derived: 3 × 0.33 × 15 A = 14.85 A)',
      ['a', 'b', 'c'].map((id) => [id, 'raw', on] as const),
      mains({ phases: 3, breaker_A: 32 }),
      /under 0\.9 may put about 14\.[89] A of third harmonics into the neutral/,
    ],
    [
      'inrush together',
      ['a', 'b'].map((id) => [id, 'surge', on] as const),
      mains(),
      /all switched on at one stroke is 60\.0 A/,
    ],
    ['inrush alone', [['a', 'burst', on]], mains(), /inrush of 90\.0 A may open a quick breaker/],
    ['no power factor', [['a', 'cheap', on]], mains(), /Power factor not given for cheap: 0\.6 taken/],
    ['nothing known', [['a', 'mystery', on]], mains(), /What a draws is not known/],
    [
      'no supply',
      [['a', 'led', {}]],
      mains(),
      /No supply for a: 174 VA, 0\.8 A at 230 V \(breaker of 1 A or more\)/,
    ],
    ['restrike', [['a', 'hot', on]], mains(), /a: after a trip 10 min of cooling/],
    ['no restrike given', [['a', 'discharge', on]], mains(), /a: no hot restrike given/],
  ])('warns of %s', (_, lamps, supply, expected) => {
    const heads = {
      ...HEADS,
      near: headOf({ kind: 'tungsten', input_W: 2870 }),
      surge: headOf({ kind: 'led', input_W: 230, powerFactor: 1, inrush_A: 30 }),
      burst: headOf({ kind: 'led', input_W: 230, powerFactor: 1, inrush_A: 90 }),
      cheap: headOf({ kind: 'led', input_W: 60 }),
      mystery: headOf(undefined),
      hot: headOf({ kind: 'discharge', input_W: 460, powerFactor: 0.95, restrike_min: 10 }),
    };
    expect(sheet(lamps, [supply], heads).warnings.join('\n')).toMatch(expected);
  });

  it('says how to plug it so that it fits', () => {
    const second = mains({ id: 'hall', name: 'Hall' });
    const { warnings } = sheet(
      [
        ['a', 'discharge', on],
        ['b', 'discharge', on],
      ],
      [mains(), second],
    );
    expect(warnings.join('\n')).toMatch(
      /Plugged like this it fits: [ab] over to Hall\. Then Wall 9\.2 A of 12\.8 A, Hall 9\.2 A of 12\.8 A\./,
    );
  });

  it('says what stays without power where nothing fits', () => {
    const { warnings } = sheet(
      [
        ['a', 'discharge', on],
        ['b', 'discharge', on],
      ],
      [mains()],
    );
    expect(warnings.join('\n')).toMatch(
      /No plugging carries all lamps\. Without power stay [ab]: another supply/,
    );
  });

  it('says where no usual cable will do', () => {
    const far = mains({ volts: 24, breaker_A: 200, cable: { length_m: 2000, area_mm2: 2.5 } });
    expect(sheet([['a', 'discharge', on]], [far]).warnings.join('\n')).toMatch(/No usual cable cures that/);
  });

  it('counts fuel for the hours that were asked for', () => {
    const generator = mains({ kind: 'generator', rating_kVA: 5 });
    const { findings } = sheet([['a', 'discharge', on]], [generator], HEADS, {
      hours: 10,
      fuel_L_per_kWh: 0.4,
    });
    // derived: 2.07 kW × 0.4 = 0.828 L/h; 8.28 L for 10 h; × 1.3 = 10.8
    expect(findings.join('\n')).toMatch(
      /Fuel 0\.83 L an hour \(0\.4 L\/kWh\), 8\.3 L for 10 h; bring 10\.8 L\./,
    );
  });
});
