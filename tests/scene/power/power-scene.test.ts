import { describe, expect, it } from 'vitest';
import { powerScene } from '../../../src/scene/power/power-scene.ts';
import { HEADS, headOf, poweredScene } from '../../support/powered-scenes.ts';

/** derived: input over power factor */
const BIG_VA = 2070 / 0.98;
const LED_VA = 165 / 0.95;

const mains = (id: string, more: object = {}) => ({ id, kind: 'mains', volts: 230, breaker_A: 16, ...more });
const three = (id: string, more: object = {}) => mains(id, { phases: 3, ...more });
const at = (supply: string, more: object = {}) => ({ supply, ...more });

describe('loads', () => {
  it('count every lamp that is on in full, however it is dimmed, and those that are off not', () => {
    const { supplies, total } = powerScene(
      poweredScene(
        [
          ['a', 'led', at('s', { level: 0.1 })],
          ['b', 'led', at('s', { on: false })],
          ['c', 'discharge', at('s', { level: 0.5 })],
        ],
        [mains('s')],
      ),
    );
    expect(total.load_W).toBe(165 + 2070);
    expect(supplies[0]).toMatchObject({ load_W: 2235, lamps: ['a', 'c'], lampsOff: ['b'] });
    // derived: the LED at a tenth, the discharge head in full
    expect(supplies[0]!.dimmed_W).toBeCloseTo(16.5 + 2070, 9);
    expect(supplies[0]!.allOn_A).toBeCloseTo((BIG_VA + 2 * LED_VA) / 230, 9);
  });

  it('take 1 for the power factor of tungsten, 0.6 for others that do not say, and none on a battery', () => {
    const heads = {
      ...HEADS,
      warm: headOf({ kind: 'tungsten', input_W: 650 }),
      cheap: headOf({ kind: 'led', input_W: 60 }),
      idle: headOf({ kind: 'led', input_W: 0 }),
      unknown: headOf(undefined),
    };
    const { lamps, unknown, total } = powerScene(
      poweredScene(
        [
          ['a', 'warm'],
          ['b', 'cheap'],
          ['c', 'cheap', at('pack')],
          ['d', 'idle'],
          ['e', 'unknown'],
        ],
        [{ id: 'pack', kind: 'battery', volts: 28 }],
        { heads },
      ),
    );
    expect(lamps.map((lamp) => lamp.load_VA)).toEqual([650, 100, 60, 0, null]);
    expect(lamps.map((lamp) => lamp.powerFactorAssumed)).toEqual([false, true, false, true, false]);
    expect(unknown).toEqual(['e']);
    expect(total.load_VA).toBe(810);
  });

  it('are those of the library’s heads where the document has none', () => {
    const { lamps } = powerScene(poweredScene([['a', 'discharge-1800-flood']], []));
    expect(lamps[0]!.load_VA).toBeCloseTo(BIG_VA, 9);
  });
});

describe('limits', () => {
  const limitOf = (supply: object) =>
    powerScene(poweredScene([['a', 'led']], [{ id: 's', volts: 230, kind: 'mains', ...supply }]))
      .supplies[0]!;

  it('are 0.8 of the breaker, or what the supply says of it', () => {
    expect(limitOf({ breaker_A: 16 })).toMatchObject({ limit_A: 12.8, limitSetBy: 'breaker' });
    expect(limitOf({ breaker_A: 16, continuous: 1 }).limit_A).toBe(16);
  });

  it('are 0.8 of a generator’s rating where that is less, per phase where it has three', () => {
    const kind = 'generator';
    // derived: 0.8 × 2300 VA/230 V = 8 A; three phases share 6900 VA
    expect(limitOf({ kind, breaker_A: 16, rating_kVA: 2.3 })).toMatchObject({
      limit_A: expect.closeTo(8, 12),
      limitSetBy: 'rating',
    });
    expect(limitOf({ kind, rating_kVA: 6.9, phases: 3 }).limit_A).toBeCloseTo(8, 12);
    expect(limitOf({ kind, breaker_A: 16, rating_kVA: 60 }).limitSetBy).toBe('breaker');
  });

  it('are not known where the document gives neither', () => {
    expect(limitOf({})).toMatchObject({ limit_A: null, limitSetBy: null, over: false, trips: false });
    expect(limitOf({}).room.every((room) => room.more === null)).toBe(true);
  });

  it('may be met exactly', () => {
    const heads = { ...HEADS, even: headOf({ kind: 'tungsten', input_W: 1472 }) };
    const lamps = [
      ['a', 'even', at('s')],
      ['b', 'even', at('s')],
    ] as const;
    // derived: 2 × 1472/230 = 12.8 A = 0.8 × 16 A
    const [full] = powerScene(poweredScene(lamps, [mains('s')], { heads })).supplies;
    expect(full).toMatchObject({ over: false });
    const [over] = powerScene(
      poweredScene([...lamps, ['c', 'led', at('s')]], [mains('s')], { heads }),
    ).supplies;
    expect(over).toMatchObject({ over: true, trips: false });
  });
});

describe('three phases', () => {
  it('keep the phases that lamps name, and even out the others', () => {
    const { supplies } = powerScene(
      poweredScene(
        [
          ['a', 'discharge', at('s', { phase: 3 })],
          ['b', 'led', at('s')],
          ['c', 'led', at('s')],
          ['d', 'led', at('s')],
          ['e', 'led', at('s')],
        ],
        [three('s')],
      ),
    );
    const phases = supplies[0]!.phases!;
    expect(phases[2]!.lamps).toEqual(['a']);
    expect(phases[0]!.lamps).toHaveLength(2);
    expect(phases[1]!.lamps).toHaveLength(2);
    expect(supplies[0]!.current_A).toBeCloseTo(BIG_VA / 230, 9);
    // derived: phasors of b, b and a at 120° leave a − b in the neutral
    expect(supplies[0]!.neutral_A).toBeCloseTo((BIG_VA - 2 * LED_VA) / 230, 9);
  });

  it('lose in phase and neutral: there and back for a phase alone, one way for three alike', () => {
    const cable = { length_m: 50, area_mm2: 2.5 };
    const [alone, single] = powerScene(
      poweredScene(
        [
          ['a', 'discharge', at('s')],
          ['b', 'discharge', at('t')],
        ],
        [three('s', { cable }), mains('t', { cable })],
      ),
    ).supplies;
    expect(alone!.drop_V).toBeCloseTo(single!.drop_V!, 9);
    const even = powerScene(
      poweredScene(
        ['a', 'b', 'c'].map((id) => [id, 'discharge', at('s')] as const),
        [three('s', { cable })],
      ),
    ).supplies[0]!;
    expect(even.drop_V).toBeCloseTo(single!.drop_V! / 2, 9);
    expect(even.neutral_A).toBeCloseTo(0, 9);
  });
});

describe('cable', () => {
  const [supply] = powerScene(
    poweredScene([['a', 'discharge', at('s')]], [mains('s', { cable: { length_m: 100, area_mm2: 1.5 } })]),
  ).supplies;

  it('is cured by the thinnest that keeps the limit', () => {
    const { cure } = supply!.cable!;
    const with_mm2 = (area_mm2: number) =>
      powerScene(
        poweredScene([['a', 'discharge', at('s')]], [mains('s', { cable: { length_m: 100, area_mm2 } })]),
      ).supplies[0]!;
    expect(with_mm2(cure!.area_mm2)).toMatchObject({ dropOver: false, drop_percent: cure!.drop_percent });
    // derived: 2 × 100 × 0.017241 × 9.18/(3 % of 230) = 4.59 mm², between the made sizes 4 and 6
    expect(cure!.area_mm2).toBe(6);
    expect(with_mm2(4).dropOver).toBe(true);
  });

  it('that no made size cures says so', () => {
    const [far] = powerScene(
      poweredScene(
        [['a', 'discharge', at('s')]],
        [mains('s', { volts: 24, breaker_A: 200, cable: { length_m: 2000, area_mm2: 2.5 } })],
      ),
    ).supplies;
    expect(far!.cable).toMatchObject({ over: true, cure: null });
  });

  it('warms with its copper, and by request has another limit', () => {
    const scene = poweredScene(
      [['a', 'discharge', at('s')]],
      [mains('s', { cable: { length_m: 50, area_mm2: 2.5 } })],
    );
    const cold = powerScene(scene).supplies[0]!;
    const warm = powerScene(scene, { temperature_C: 70 }).supplies[0]!;
    // derived: 1 + 0.00393 × 50
    expect(warm.drop_V! / cold.drop_V!).toBeCloseTo(1.1965, 9);
    expect([cold.dropOver, warm.dropOver]).toEqual([false, true]);
    expect(powerScene(scene, { limit_percent: 2 }).supplies[0]!.dropOver).toBe(true);
    // derived: 2 × 50 m × 7.98 Ω/km × 1.1965 × 9.183 A (IEC 60228 class 5) = 8.77 V
    expect((cold.cable!.warm_percent / 100) * 230).toBeCloseTo(8.77, 2);
  });

  it('keeps room for fewer heads than the current would', () => {
    const [room] = powerScene(
      poweredScene([['a', 'led', { on: false }]], [mains('s', { cable: { length_m: 50, area_mm2: 2.5 } })]),
    ).supplies.map((s) => s.room.find((r) => r.head === 'led'));
    // derived: 12.8/0.755 = 16.9; the drop allows 6.9 V/0.6896 Ω = 10.0 A, 13.2 heads
    expect(room).toEqual({ head: 'led', byCurrent: 16, more: 13 });
  });
});

describe('inrush', () => {
  const heads = { ...HEADS, surge: headOf({ kind: 'led', input_W: 230, powerFactor: 1, inrush_A: 30 }) };

  it('is all at once, and one by one on top of what runs', () => {
    const { inrush } = powerScene(
      poweredScene(
        [
          ['a', 'surge', at('s')],
          ['b', 'surge', at('s')],
          ['c', 'led', at('s')],
        ],
        [mains('s')],
        { heads },
      ),
    ).supplies[0]!;
    const led_A = LED_VA / 230;
    // derived: 1 A runs and 30 A surge each
    expect(inrush!.together_A).toBeCloseTo(60 + led_A, 9);
    expect(inrush!.oneByOne_A).toBeCloseTo(30 + 1 + led_A, 9);
    expect(inrush).toMatchObject({ quickTrip_A: 48, unknown: ['led'] });
  });

  it('is nothing of nothing', () => {
    expect(powerScene(poweredScene([['a', 'led']], [mains('s')])).supplies[0]!.inrush).toBeNull();
  });
});

describe('a proposal', () => {
  it('is not made where everything is plugged in and within', () => {
    expect(powerScene(poweredScene([['a', 'led', at('s')]], [mains('s')])).proposal).toBeNull();
  });

  it('moves as few lamps as it can to bring every supply within its limit', () => {
    const scene = poweredScene(
      [
        ['a', 'discharge', at('s')],
        ['b', 'discharge', at('s')],
        ['c', 'led', at('t')],
      ],
      [mains('s'), mains('t')],
    );
    const { supplies, proposal } = powerScene(scene);
    expect(supplies.map((supply) => supply.over)).toEqual([true, false]);
    expect(proposal).toMatchObject({ fits: true, proven: true, left: [] });
    expect(proposal!.moves).toHaveLength(1);
    expect(proposal!.moves[0]).toMatchObject({ from: 's', to: 't', phase: null });
    expect(proposal!.supplies.some((supply) => supply.over)).toBe(false);
  });

  it('plugs in what has no supply, on phases too, and never a lamp of other volts', () => {
    const { proposal } = powerScene(
      poweredScene(
        [
          ['a', 'discharge'],
          ['b', 'discharge'],
          ['c', 'discharge'],
          ['d', 'led', at('us')],
        ],
        [three('s'), mains('us', { volts: 120, breaker_A: 1 })],
      ),
    );
    // derived: 9.2 A each, one on each phase of 12.8 A; the LED head's 1.45 A at 120 V find no other supply of 120 V
    expect(new Set(proposal!.moves.map((move) => move.phase))).toEqual(new Set([1, 2, 3]));
    expect(proposal).toMatchObject({ fits: false, proven: true, left: ['d'] });
  });

  it('leaves alone what hangs on a battery or on a supply without a limit, and puts nothing there', () => {
    const { proposal } = powerScene(
      poweredScene(
        [
          ['a', 'led', at('pack')],
          ['b', 'led', at('open')],
          ['c', 'led'],
        ],
        [
          { id: 'pack', kind: 'battery', volts: 230, breaker_A: 50 },
          { id: 'open', kind: 'mains', volts: 230 },
          mains('s'),
        ],
      ),
    );
    expect(proposal!.moves).toEqual([{ lamp: 'c', from: null, to: 's', phase: null }]);
  });

  it('cannot be made without a supply that could take anything', () => {
    expect(powerScene(poweredScene([['a', 'led']], [])).proposal).toBeNull();
    expect(
      powerScene(poweredScene([['a', 'led']], [{ id: 'open', kind: 'mains', volts: 230 }])).proposal,
    ).toBeNull();
  });

  it('may be no more than other phases', () => {
    // Two on phase 1 by name are 18.4 A of 12.8 A.
    const { proposal } = powerScene(
      poweredScene(
        [
          ['a', 'discharge', at('s', { phase: 1 })],
          ['b', 'discharge', at('s', { phase: 1 })],
        ],
        [three('s')],
      ),
    );
    expect(proposal).toMatchObject({ fits: true });
    expect(proposal!.moves).toHaveLength(1);
    expect(proposal!.moves[0]).toMatchObject({ from: 's', to: 's' });
    expect([2, 3]).toContain(proposal!.moves[0]!.phase);
  });
});

describe('without supplies', () => {
  it('there are totals still, and a generator for them', () => {
    const { supplies, unplugged, total, generator_kVA, usualGenerator_kVA } = powerScene(
      poweredScene(
        [
          ['a', 'discharge'],
          ['b', 'led', { on: false }],
        ],
        [],
      ),
    );
    expect(supplies).toEqual([]);
    expect(unplugged).toEqual(['a']);
    expect(total.load_W).toBe(2070);
    // derived: 2112/0.8
    expect(generator_kVA).toBeCloseTo(2.64, 2);
    expect(usualGenerator_kVA).toBe(3);
  });
});
