import { describe, expect, it } from 'vitest';
import { keyfall, SCENES, temporaryFolder } from '../support/command-line.ts';
import { HEADS } from '../support/powered-scenes.ts';
import { smallScene } from '../support/scenes.ts';

const { file } = temporaryFolder();
const QUAY = `${SCENES}night-quay.json`;

function sceneFile(name: string, lamp: object, supplies: readonly object[], more: object = {}): string {
  return file(
    name,
    JSON.stringify({
      ...smallScene(),
      heads: HEADS,
      lamps: [{ id: 'big', head: 'discharge', position_m: [0, 1, 4], aim_m: [0, 1, 0], ...lamp }],
      supplies,
      ...more,
    }),
  );
}

const mains = { id: 'wall', kind: 'mains', volts: 120, breaker_A: 20 };

describe('keyfall power --json', () => {
  it('has every field of the contract', async () => {
    const { code, out, err } = await keyfall('power', QUAY, '--json');
    expect([code, err]).toEqual([0, '']);
    const report = JSON.parse(out);
    expect(report.generator_kVA).toBeTypeOf('number');
    expect(report.warnings).toBeInstanceOf(Array);
    expect(report.cautions[0]).toMatch(/^Planning aid only/);
    for (const supply of report.supplies) {
      for (const field of ['load_W', 'load_VA', 'current_A', 'limit_A', 'drop_V', 'drop_percent'])
        expect(supply[field], field).toBeTypeOf('number');
      expect(supply.over).toBe(false);
    }
    // derived: 2070/0.98 VA at 230 V; 0.8 × 16 A
    expect(report.supplies[0]).toMatchObject({ id: 'generator', lamps: ['back'], limit_A: 12.8 });
    expect(report.supplies[0].current_A).toBeCloseTo(2070 / 0.98 / 230, 9);
    expect(report.supplies[1].lamps).toEqual(['key', 'cabin', 'rim', 'fill']);
  });

  it('is one object on one line and nothing else', async () => {
    const { out } = await keyfall('power', QUAY, '--json', '--if-lost', '--direct');
    expect(out.trimEnd()).not.toContain('\n');
    // A mark that nothing is left on is null, as is every reading of no light.
    expect(JSON.parse(out).ifLost[0].marks[0].change_stops).toBeLessThanOrEqual(0);
  });
});

describe('exit codes', () => {
  it('are 1 where a supply is over its limit, or its cable over what it may lose', async () => {
    const over = sceneFile('over.json', { supply: 'wall' }, [mains]);
    expect(await keyfall('power', over)).toMatchObject({ code: 1, err: '' });
    const drop = sceneFile('drop.json', { supply: 'wall' }, [
      { ...mains, volts: 230, cable: { length_m: 60, area_mm2: 2.5 } },
    ]);
    expect((await keyfall('power', drop)).code).toBe(1);
    expect((await keyfall('power', drop, '--drop', '3.5')).code).toBe(0);
    expect((await keyfall('power', drop, '--drop', '3.5', '--cable-temp', '70')).code).toBe(1);
    expect((await keyfall('power', over, '--json')).code).toBe(1);
  });

  it('are 0 where nothing is plugged in, and the totals are there all the same', async () => {
    const { code, out } = await keyfall('power', sceneFile('loose.json', {}, []));
    expect(code).toBe(0);
    expect(out).toContain('2070 W, 2112 VA in all');
    expect(out).toContain(
      'No supply for big: 2112 VA, 17.6 A at 120 V (breaker of 23 A or more), 9.2 A at 230 V',
    );
    expect(out).toContain('One generator for everything: at least 2.64 kVA, next usual set 3 kVA.');
  });
});

describe('options', () => {
  it('take the scene as a setup has it', async () => {
    const scene = sceneFile('setup.json', { supply: 'wall' }, [mains], {
      setups: [{ id: 'off', changes: { big: { on: false } } }],
    });
    expect((await keyfall('power', scene)).code).toBe(1);
    const { code, out } = await keyfall('power', scene, '--setup', 'off');
    expect(code).toBe(0);
    expect(out).toMatch(/^Setup off · power · 0 W/m);
  });

  it('reckon fuel for the hours and the engine', async () => {
    const scene = sceneFile('fuel.json', { supply: 'gen' }, [
      { id: 'gen', kind: 'generator', volts: 230, breaker_A: 32 },
    ]);
    const { out } = await keyfall('power', scene, '--hours', '10', '--fuel', '0.4', '--json');
    // derived: 2.07 kW × 10 h × 0.4 L/kWh
    expect(JSON.parse(out).supplies[0].generator.fuel_L).toBeCloseTo(8.28, 9);
  });

  it('say what is lost with a lamp or a supply only when asked', async () => {
    expect(JSON.parse((await keyfall('power', QUAY, '--json')).out).ifLost).toBeNull();
    const { out } = await keyfall('power', QUAY, '--if-lost', '--direct', '--camera', 'b');
    expect(out).toMatch(/^If it goes out, stops +ada-face/m);
    expect(out).toMatch(/^Socket at the harbour office \(4 lamps\)/m);
  });

  it.each<[string, string[], RegExp]>([
    ['hours', ['--hours', '-1'], /--hours -1: give a number from 0 to 1000/],
    ['fuel', ['--fuel', 'much'], /--fuel much: give a number from 0\.05 to 5/],
    ['drop', ['--drop', '0'], /--drop 0: give a number from 0\.1 to 50/],
    ['temperature', ['--cable-temp', '900'], /--cable-temp 900: give a number from -40 to 150/],
    ['setup', ['--setup', '9'], /found no setup "9"/],
    ['camera', ['--camera', 'z'], /found no camera "z"/],
    ['lost camera', ['--if-lost', '--camera', 'z'], /found no camera "z"/],
    ['direct alone', ['--direct'], /--direct goes with --if-lost/],
    ['uncorrected alone', ['--uncorrected'], /--uncorrected goes with --if-lost/],
  ])('that are nonsense are refused: %s', async (_, options, message) => {
    const { code, out, err } = await keyfall('power', QUAY, ...options);
    expect([code, out]).toEqual([2, '']);
    expect(err).toMatch(message);
  });

  it('need lamps, and marks for what is lost', async () => {
    const empty = file('empty.json', JSON.stringify({ keyfall: 1, title: '' }));
    expect(await keyfall('power', empty)).toEqual({
      code: 2,
      out: '',
      err: 'lamps: found no lamps; expected at least one, or there is nothing to power\n',
    });
    const unmarked = sceneFile('unmarked.json', {}, [], { marks: [] });
    expect((await keyfall('power', unmarked, '--if-lost')).err).toMatch(/^marks: found no marks/);
  });
});
