import { describe, expect, it } from 'vitest';
import { commonFields } from '../../../src/editor/properties/common-fields.ts';
import { commonValue, MIXED } from '../../../src/editor/properties/desk.tsx';
import type { Field, VariantField } from '../../../src/editor/properties/field.ts';
import { fieldWords, valueWords } from '../../../src/editor/properties/field-words.ts';
import { niceFigure } from '../../../src/editor/properties/fields/figure-slider.tsx';
import { offsetFromText } from '../../../src/editor/properties/fields/instant-field.tsx';
import { weightsWith } from '../../../src/editor/properties/fields/monochrome-field.tsx';
import { inWay } from '../../../src/editor/properties/fields/reflectance-field.tsx';
import { tableFromText } from '../../../src/editor/properties/fields/table-row.tsx';
import { becoming } from '../../../src/editor/properties/fields/variant-row.tsx';
import { TABLES } from '../../../src/editor/properties/kinds/tables.ts';
import { schemaOfKind } from '../../../src/editor/properties/schema-limits.ts';
import type { SubjectKind } from '../../../src/editor/properties/subject.ts';
import { subjectOf } from '../../../src/editor/properties/subject.ts';
import { withValueAt } from '../../../src/editor/properties/value-at.ts';
import { valueAt } from '../../../src/scene/problems/problem.ts';
import type { SceneDocument } from '../../../src/scene/schema/document.ts';
import { quay } from './quay.ts';

const fieldsOf = (kind: SubjectKind): Field[] =>
  TABLES[kind].sections.flatMap((section) => [...section.fields]);

function variants(
  fields: readonly Field[],
  under: readonly (string | number)[] = [],
): [VariantField, (string | number)[]][] {
  return fields.flatMap((field) => (field.as === 'variant' ? [[field, [...under, ...field.path]]] : []));
}

describe('a thing of one kind made one of another', () => {
  const chosen = { heads: 'heads/discharge-400', solids: 'boat', filters: 'filters/red' } as const;
  it.each(Object.entries(chosen))('is valid whatever it was: %s', (kind, id) => {
    const schema = schemaOfKind(kind as SubjectKind);
    const { thing } = subjectOf(quay, id)!;
    for (const [field, at] of variants(fieldsOf(kind as SubjectKind))) {
      for (const from of Object.keys(field.variants)) {
        const first = becoming(field, valueAt(thing, at) as never, from);
        for (const to of Object.keys(field.variants)) {
          const whole = withValueAt(thing, at, becoming(field, first, to));
          const parsed = schema.safeParse(whole);
          expect(parsed.success, `${from} → ${to}: ${JSON.stringify(whole)} ${parsed.error?.message}`).toBe(
            true,
          );
        }
      }
    }
  });

  it('gives the same light, known in another way', () => {
    const [[field]] = variants(fieldsOf('heads')) as [[VariantField, unknown]];
    const beam = { kind: 'beam', peak_cd: 26_000, beam_deg: 40, field_deg: 65 };
    // derived: 26 000 cd at 5 m is 1040 lx
    const metered = becoming(field, beam, 'metered');
    expect(metered).toEqual({
      kind: 'metered',
      illuminance_lx: 1040,
      distance_m: 5,
      beam_deg: 40,
      field_deg: 65,
    });
    const back = becoming(field, becoming(field, metered, 'lumens'), 'beam');
    expect((back.peak_cd as number) / 26_000).toBeCloseTo(1, 3);
  });

  it('keeps what both have', () => {
    const [[field]] = variants(fieldsOf('solids')) as [[VariantField, unknown]];
    const box = becoming(field, subjectOf(quay, 'boat')!.thing as never, 'box');
    expect(box).toMatchObject({ id: 'boat', name: 'Boat', material: 'hull-gloss', size_m: [24, 3.3, 3.4] });
    expect(box.windows).toBeUndefined();
  });
});

describe('things that can be switched on or added', () => {
  it('start valid', () => {
    for (const kind of Object.keys(TABLES) as SubjectKind[]) {
      for (const field of fieldsOf(kind)) {
        const start =
          field.as === 'group'
            ? field.start
            : field.as === 'list' && field.next
              ? [field.next(undefined)]
              : undefined;
        if (start === undefined) continue;
        const schema = schemaOfKind(kind);
        const result = schema.safeParse(withValueAt({}, field.path, start));
        const own = result.error?.issues.filter((issue) => issue.path[0] === field.path[0]) ?? [];
        const short = own.every((issue) => issue.code === 'too_small' && issue.path.length === 1);
        expect(short, `${kind} ${field.label}: ${JSON.stringify(own)}`).toBe(true);
      }
    }
  });
});

describe('several things', () => {
  it('have in common what every one of them has', () => {
    const labels = commonFields([TABLES.lamps, TABLES.marks]).map(({ label }) => label);
    expect(labels).toEqual(['Name']);
    expect(commonFields([TABLES.figures, TABLES.marks, TABLES.solids]).map(({ label }) => label)).toEqual([
      'Name',
      'Stands at',
    ]);
    expect(commonFields([TABLES.haze, TABLES.lamps])).toEqual([]);
  });

  it('show a value that they share, and none where they do not', () => {
    const document: SceneDocument = quay;
    expect(commonValue(document, ['back'], ['name'])).toBe('Backlight');
    expect(commonValue(document, ['back', 'key'], ['name'])).toBe(MIXED);
    expect(commonValue(document, ['back', 'key'], ['roll_deg'])).toBeUndefined();
    expect(commonValue(document, ['back', 'gone'], ['name'])).toBe('Backlight');
  });
});

describe('weights of a monochrome picture', () => {
  it('add up to 1 whichever is set', () => {
    for (const [index, weight] of [
      [0, 0.8],
      [1, -0.5],
      [2, 0.3],
      [0, 1],
      [1, 3],
    ] as const) {
      const weights = weightsWith([0.2126, 0.7152, 0.0722], index, weight);
      expect(weights[index]).toBeCloseTo(weight, 4);
      expect(weights.reduce((sum, w) => sum + w, 0)).toBeCloseTo(1, 9);
    }
    expect(weightsWith([1, 0, 0], 0, 0.6)).toEqual([0.6, 0.2, 0.2]);
  });
});

describe('a table that is typed or pasted', () => {
  it('takes two numbers a line, however they are parted', () => {
    expect(tableFromText('380 0.1\n390\t0,25\n\n400; .5\n410, 1e-3')).toEqual([
      [380, 0.1],
      [390, 0.25],
      [400, 0.5],
      [410, 0.001],
    ]);
  });

  it('says which line it cannot read', () => {
    expect(tableFromText('380 1\n390 one')).toContain('line 2');
    expect(tableFromText('380 1')).toContain('two lines');
    expect(tableFromText('1 2 3\n4 5 6')).toContain('line 1');
  });
});

describe('a clock’s offset', () => {
  it.each([
    ['+1', '+01:00'],
    ['\u22125', '-05:00'],
    ['05:30', '+05:30'],
    ['UTC+2', '+02:00'],
    ['0', 'Z'],
    ['Z', 'Z'],
  ])('%s', (text, offset) => expect(offsetFromText(text)).toBe(offset));
  it.each(['+15', 'one', '+1:75', '1.5'])('not %s', (text) => expect(offsetFromText(text)).toBeNull());
});

describe('a material said in another way', () => {
  it('keeps how light it is', () => {
    const grey = inWay({ name: 'Red', reflectance: [0.2, 0.03, 0.03], roughness: 0.3 }, 'grey', 'red');
    // derived: 0.2126·0.2 + 0.7152·0.03 + 0.0722·0.03 = 0.0661
    expect(grey).toEqual({ name: 'Red', reflectance: 0.066, roughness: 0.3 });
    expect(inWay({ reflectance: 0.18 }, 'colour', 'red')).toEqual({ reflectance: [0.18, 0.18, 0.18] });
    expect(inWay({ reflectance: 0.18 }, 'metal', 'red')).toEqual({ metal: 'aluminium' });
    expect(inWay({ metal: 'iron' }, 'grey', 'red')).toEqual({ reflectance: 0.18 });
    expect(inWay({ reflectance: 0.18 }, 'spectrum', 'red')).toEqual({ reflectance: 'red' });
  });
});

describe('a slide', () => {
  it('stops at figures that people would dial', () => {
    expect(niceFigure('kelvin', 4321, 100, { from: 2000, to: 10_000, ratio: true })).toBe(4300);
    expect(niceFigure('percent', 0.499, 0.01, { from: 0, to: 1 })).toBe(0.5);
    expect(niceFigure('fNumber', 40, 0.1, { from: 1, to: 32, ratio: true })).toBe(32);
  });
});

describe('changes of a setup in words', () => {
  it('read like the fields they change', () => {
    expect([
      fieldWords('visibility_m'),
      fieldWords('on'),
      fieldWords('whiteBalance_K'),
      fieldWords('iso'),
    ]).toEqual(['Visibility', 'Switched', 'White balance', 'ISO']);
    expect(valueWords({ maxHeight_m: 3, sheltered: true })).toBe('max height 3, sheltered on');
    expect(valueWords([1, -2.5, null])).toBe('1, \u22122.5, none');
  });
});
