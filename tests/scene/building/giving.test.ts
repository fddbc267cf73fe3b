import { describe, expect, it } from 'vitest';
import { giveFilter, giveMaterial, giveOpening, givePane } from '../../../src/scene/building/give.ts';
import { makeKeepOut } from '../../../src/scene/building/make-area.ts';
import { makePath } from '../../../src/scene/building/make-path.ts';
import { makeSetup } from '../../../src/scene/building/make-setup.ts';
import { makeSupply } from '../../../src/scene/building/make-supply.ts';
import { makeOwn } from '../../../src/scene/building/own-entry.ts';
import { LIBRARY } from '../../../src/scene/library/library.ts';
import type { VehicleSolid } from '../../../src/scene/schema/solid.ts';
import { opened } from '../../support/scenes.ts';
import { sceneNamed, seen, withMade } from './support.ts';

const quay = sceneNamed('night-quay');

describe('what is given to chosen things', () => {
  it('a material goes to solids, to clothes, and skin to skin', () => {
    expect(withMade(quay, giveMaterial(seen(quay, ['trunk']), 'gloss-red')!).solids!.at(-1)!).toMatchObject({
      material: 'gloss-red',
    });
    const [ada] = withMade(quay, giveMaterial(seen(quay, ['ada']), 'wool-red')!).figures!;
    expect(ada).toMatchObject({ skin: 'skin-mid', upper: 'wool-red', lower: 'wool-red' });
    expect(withMade(quay, giveMaterial(seen(quay, ['ada']), 'skin-fair')!).figures![0]).toMatchObject({
      skin: 'skin-fair',
      upper: 'coat-plum',
    });
    expect(giveMaterial(seen(quay, ['back']), 'wool-red')).toBeNull();
  });

  it('a pane goes to all windows of a vehicle, a filter behind a lamp’s others', () => {
    const boat = withMade(quay, givePane(seen(quay, ['boat']), 'clear-glass')!).solids!.find(
      ({ id }) => id === 'boat',
    );
    expect(boat).toMatchObject({ windows: [{ pane: 'clear-glass' }, { pane: 'clear-glass' }] });
    expect(withMade(quay, giveFilter(seen(quay, ['back']), 'frost')!).lamps![0]!.filters).toEqual([
      'half-ctb',
      'frost',
    ]);
    expect(giveFilter(seen(quay, ['ada']), 'frost')).toBeNull();
    const crammed = {
      ...quay,
      lamps: [{ ...quay.lamps![0]!, filters: Array(12).fill('frost') as string[] }],
    };
    expect(giveFilter(seen(crammed, ['back']), 'frost')).toBeNull();
  });
});

describe('a row of windows', () => {
  it('goes into the side toward the camera, and needs a vehicle', () => {
    const solids = quay.solids!.map((solid) => ({ ...solid, windows: undefined, doors: undefined }));
    const bare = opened(JSON.parse(JSON.stringify({ ...quay, solids, setups: [] })));
    const boat = (made: ReturnType<typeof giveOpening>) =>
      withMade(bare, made!).solids!.find(({ id }) => id === 'boat') as VehicleSolid;
    // The camera looks down the quay: the stern, at −x, is turned to it most.
    const lengthways = boat(giveOpening(seen(bare, ['boat']), 'windows'));
    expect(lengthways.windows).toMatchObject([{ side: 'back', count: 1 }]);
    const camera = { ...bare.cameras![0]!, position_m: [0, 1.5, 3] as [number, number, number] };
    const across = boat(giveOpening({ ...seen(bare, ['boat']), camera }, 'doors'));
    expect(across.doors).toMatchObject([{ side: 'right', count: 1 }]);
    expect(giveOpening(seen(bare, ['trunk']), 'windows')).toBeNull();
  });
});

describe('an own entry', () => {
  it('begins as a copy and is used by what is chosen', () => {
    const made = makeOwn(quay, 'heads', 'led-head-spot', ['key', 'back']);
    const after = withMade(quay, made);
    expect(after.heads).toEqual({
      'led-head-spot-own': {
        ...LIBRARY.heads['led-head-spot'],
        name: 'Small LED head, narrow reflector, own',
      },
    });
    expect(after.lamps!.map(({ head }) => head).slice(0, 3)).toEqual([
      'discharge-1800-spot',
      'led-head-spot-own',
      'led-head-spot',
    ]);
    expect(made.chosen).toEqual(['led-head-spot-own']);
    expect(Object.keys(withMade(after, makeOwn(after, 'heads', 'led-head-spot')).heads!)).toEqual([
      'led-head-spot-own',
      'led-head-spot-own-2',
    ]);
  });

  it('replaces a material and a pane wherever in the thing they stand', () => {
    const { figures } = withMade(quay, makeOwn(quay, 'materials', 'coat-plum', ['ada']));
    expect(figures![0]).toMatchObject({ upper: 'coat-plum-own', lower: 'coat-plum-own' });
    const { solids } = withMade(quay, makeOwn(quay, 'panes', 'dirty-glass', ['boat']));
    expect(solids!.find(({ id }) => id === 'boat')).toMatchObject({
      windows: [{ pane: 'dirty-glass-own' }, { pane: 'dirty-glass-own' }],
    });
  });

  it('of nothing known is refused', () => {
    expect(() => makeOwn(quay, 'heads', '__proto__')).toThrow(RangeError);
  });
});

describe('supplies, paths, areas, setups', () => {
  it('a supply takes lamps that have none, as many as it carries', () => {
    const dark = { ...quay, supplies: [], lamps: quay.lamps!.map(({ supply: _, ...lamp }) => lamp) };
    const { lamps } = withMade(dark, makeSupply(seen(dark), 'socket'));
    // Derived: 12.8 A for hours at 230 V; 2070/0.98/230 = 9.18 A, then 165/0.95/230 = 0.755 A each: 9.18 + 4·0.755 = 12.2, a
    // fifth is over.
    expect(lamps!.map(({ supply }) => supply)).toEqual([
      'socket',
      'socket',
      'socket',
      'socket',
      'socket',
      undefined,
    ]);
    const { supplies } = withMade(
      dark,
      makeSupply(seen({ ...dark, site: { mains: { volts: 120, hertz: 60 } } }), 'socket'),
    );
    expect(supplies![0]).toMatchObject({ volts: 120, breaker_A: 20 });
  });

  it('a path is of what is chosen, at its own pace, else of a passer-by', () => {
    const path = (chosen: string[], points?: [number, number, number][]) =>
      withMade(quay, makePath(seen(quay, chosen), points)).paths!.at(-1)!;
    expect(
      path(
        ['ada'],
        [
          [0, 9, 0],
          [2.8, 9, 0],
        ],
      ),
    ).toMatchObject({
      of: 'ada',
      points: [
        { t_s: 0, position_m: [0, 0, 0] },
        { t_s: 2, position_m: [2.8, 0, 0] },
      ],
    });
    expect(
      path(
        ['a'],
        [
          [0, 9, 0],
          [1, 9, 0],
        ],
      ),
    ).toMatchObject({
      of: 'a',
      points: [
        { t_s: 0, position_m: [0, 1.5, 0] },
        { t_s: 2, position_m: [1, 1.5, 0] },
      ],
    });
    expect(path(['trunk']).of).toBe('walker');
    expect(
      path(
        [],
        [
          [0, 0, 0],
          [0, 0, 0],
        ],
      ).points[1]!.t_s,
    ).toBe(0.5);
  });

  it('an area lies between its corners, whichever comes first', () => {
    const { site } = withMade(
      quay,
      makeKeepOut(seen(quay), [
        [4, 0, 3],
        [1, 0, -2],
      ]),
    );
    expect(site!.keepOut!.at(-1)).toMatchObject({
      id: 'keep-out-1',
      outline_m: [
        [1, -2],
        [4, -2],
        [4, 3],
        [1, 3],
      ],
    });
    expect(site!.keepOut).toHaveLength(3);
  });

  it('a setup begins as what is shown', () => {
    expect(withMade(quay, makeSetup(seen(quay))).setups!.at(-1)).toEqual({
      id: 'setup-1',
      name: 'Setup 1',
      changes: {},
    });
    const copy = withMade(quay, makeSetup({ ...seen(quay), setup: '1b' })).setups!.at(-1)!;
    expect(copy.changes).toEqual({ haze: { visibility_m: 300 } });
  });
});
