import { describe, expect, it } from 'vitest';
import type { z } from 'zod';
import { pathText } from '../../../src/scene/problems/problem.ts';
import { findReferences } from '../../../src/scene/references/find-references.ts';
import { mapReferences } from '../../../src/scene/references/map-references.ts';
import { REFERENCE_FIELDS } from '../../../src/scene/references/reference-fields.ts';
import { sceneDocument } from '../../../src/scene/schema/document.ts';
import { id } from '../../../src/scene/schema/primitives.ts';
import { frozen, fullScene } from '../../support/scenes.ts';

const PLACES = [
  'materials.chart.reflectance → reflectances light-skin',
  'solids[0].material → materials asphalt',
  'solids[1].material → materials bare-iron',
  'solids[2].material → materials bare-silver',
  'solids[3].material → materials bare-nickel',
  'solids[4].material → materials chart',
  'solids[5].pane → panes dirty-glass',
  'solids[6].material → materials hull-gloss',
  'solids[6].inside → materials hull-gloss',
  'solids[6].windows[0].pane → panes dirty-glass',
  'solids[6].windows[2].pane → panes net',
  'solids[7].material → materials bare-stainless-steel',
  'figures[0].skin → materials skin-mid',
  'figures[0].upper → materials wool-dark',
  'figures[0].lower → materials bare-aluminium',
  'figures[1].upper → materials bare-chromium',
  'lamps[0].head → heads big',
  'lamps[0].filters[0] → filters half-blue',
  'lamps[0].filters[1] → filters nd',
  'lamps[0].filters[2] → filters scrim',
  'lamps[0].filters[3] → filters measured',
  'lamps[0].filters[4] → filters half-ctb',
  'lamps[0].supply → supplies gen',
  'lamps[1].head → heads soft',
  'lamps[1].supply → supplies wall-socket',
  'lamps[2].head → heads bulb',
  'lamps[3].head → heads tube',
  'lamps[4].head → heads filed',
  'lamps[5].head → heads sets',
  'lamps[5].supply → supplies pack',
  'marks[1].facing → lamps back',
  'paths[0].of → movers walker',
  'paths[1].of → movers a',
  'readings[0].mark → marks ada-face',
  'readings[0].lamps[0] → lamps back',
  'readings[0].lamps[1] → lamps key',
  'readings[0].taken[0].lamp → lamps back',
  'readings[0].taken[0].filters[0] → filters half-blue',
  'readings[0].taken[0].filters[1] → filters frost',
  'readings[0].taken[1].lamp → lamps key',
  'readings[1].mark → marks ada-rim',
  'readings[1].lamps[0] → lamps back',
];

function placesOf(scene: unknown): string[] {
  return findReferences(scene).map(({ at, field, name }) => `${pathText(at)} → ${field.to} ${name}`);
}

describe('finding references', () => {
  it('finds every one of a full scene', () => {
    expect(placesOf(fullScene()).sort()).toEqual([...PLACES].sort());
  });

  it('lists every field of the schema that holds a name of something else', () => {
    const listed = Object.entries(REFERENCE_FIELDS).flatMap(([collection, fields]) =>
      fields.map(({ path }) => [collection, '*', ...path].join('.')),
    );
    expect([...idFields(sceneDocument, '')].sort()).toEqual(listed.sort());
  });

  it.each([
    null,
    5,
    'text',
    [],
    { lamps: 5, marks: null, solids: 'x', materials: [], readings: [null, 3, []] },
    { lamps: [{ filters: 'nd', head: 5 }, { filters: [null, 5, {}] }], marks: [{ facing: [1, 2, 3] }] },
    { solids: [{ windows: { pane: 'x' } }, { windows: [null, 'x', { pane: 3 }] }] },
  ])('finds none in %j, and does not stumble', (raw) => expect(findReferences(raw)).toEqual([]));
});

describe('mapping references', () => {
  it('passes every one through, and those in the patches of setups', () => {
    const seen: string[] = [];
    mapReferences(frozen(fullScene()), (to, name) => {
      seen.push(`${to} ${name}`);
      return name;
    });
    const inSetups = ['filters nd', 'supplies wall-socket', 'lamps key', 'materials asphalt', 'panes net'];
    const outside = PLACES.map((place) => place.split(' → ')[1]!);
    expect(seen.sort()).toEqual([...outside, ...inSetups].sort());
  });

  it('changes nothing where every name stays', () => {
    expect(mapReferences(frozen(fullScene()), (_, name) => name)).toEqual(fullScene());
  });

  it('renames, with what stands before the name', () => {
    const scene = mapReferences(fullScene(), (to, name) => (to === 'lamps' ? `new-${name}` : name));
    expect(scene.marks![1]!.facing).toBe('lamp:new-back');
    expect(scene.readings![0]!.lamps).toEqual(['new-back', 'new-key']);
    expect(scene.setups![1]!.changes['ada-face']).toEqual({ facing: 'lamp:new-key' });
  });

  it('takes out of lists and leaves out fields that go', () => {
    const scene = mapReferences(fullScene(), (to, name) =>
      to === 'filters' || to === 'supplies' || to === 'panes' ? undefined : name,
    );
    expect(scene.lamps![0]).toMatchObject({ filters: [] });
    expect(scene.lamps![0]).not.toHaveProperty('supply');
    expect(scene.solids![6]).toMatchObject({ windows: [{ side: 'right' }, { side: 'left' }, {}, {}] });
    expect(placesOf(scene).filter((place) => place.includes('panes'))).toEqual([]);
    expect(scene.setups![1]!.changes.back).toEqual({ filters: [] });
  });

  it('leaves directions and patches that remove a field alone', () => {
    const scene = fullScene();
    scene.setups = [
      { id: 's', changes: { back: { supply: null, filters: null }, ground: { facing: [0, 0, 1] } } },
    ];
    expect(mapReferences(scene, () => undefined).setups).toEqual(scene.setups);
  });
});

interface Definition {
  readonly shape?: Readonly<Record<string, Schema>>;
  readonly element?: Schema;
  readonly innerType?: Schema;
  readonly valueType?: Schema;
  readonly options?: readonly Schema[];
  readonly checks?: readonly { readonly _zod: { readonly def: { readonly pattern?: RegExp } } }[];
}
type Schema = z.core.$ZodType;

/** Fields typed as ids but for the things' own `id`, and the two unions that may hold a name. */
function idFields(schema: Schema, path: string): Set<string> {
  if (schema === id) return new Set(/(^|\.)id$/.test(path) ? [] : [path]);
  const def = schema._zod.def as unknown as Definition;
  if (/\.facing$/.test(path)) return new Set([path]);
  if (def.innerType) return idFields(def.innerType, path);
  const join = (step: string) => (path ? `${path}.${step}` : step);
  if (def.shape)
    return new Set(Object.entries(def.shape).flatMap(([key, field]) => [...idFields(field, join(key))]));
  if (def.element) return idFields(def.element, join('*'));
  if (def.valueType) return idFields(def.valueType, join('*'));
  return new Set((def.options ?? []).flatMap((option) => [...idFields(option, path)]));
}
