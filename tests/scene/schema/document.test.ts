import { describe, expect, it } from 'vitest';
import type { z } from 'zod';
import { openRaw } from '../../../src/scene/file/open-scene.ts';
import { sceneDocument } from '../../../src/scene/schema/document.ts';
import { fullScene, smallScene } from '../../support/scenes.ts';

describe('scene document', () => {
  it('accepts a document that uses every field', () => {
    const { document, problems } = openRaw(fullScene());
    expect(problems).toEqual([]);
    expect(document).toEqual(fullScene());
  });

  it('has every field, every kind and every word of the schema in that document', () => {
    expect(unused(sceneDocument, [fullScene()], '')).toEqual([]);
  });

  it('accepts the least document: a version and a title', () => {
    expect(openRaw({ keyfall: 1, title: '' }).problems).toEqual([]);
  });

  it('accepts the example of the design, with its one dangling name (the lamp "key" of setup 1a) supplied', () => {
    expect(openRaw(designExample()).problems).toEqual([]);
  });

  it('gives back the very value that it was given, not a copy with fields dropped or added', () => {
    const given = smallScene();
    expect(openRaw(given).document).toBe(given);
  });
});

type Schema = z.core.$ZodType;
interface Definition {
  readonly type: string;
  readonly shape?: Readonly<Record<string, Schema>>;
  readonly element?: Schema;
  readonly innerType?: Schema;
  readonly valueType?: Schema;
  readonly options?: readonly Schema[];
  readonly entries?: Readonly<Record<string, string>>;
  readonly values?: readonly unknown[];
}

/** Paths of the schema that none of the values reaches. */
function unused(schema: Schema, values: readonly unknown[], path: string): string[] {
  const def = schema._zod.def as unknown as Definition;
  if (def.innerType) return unused(def.innerType, values, path);
  if (values.length === 0) return [path];
  if (def.shape) {
    const shape = Object.entries(def.shape);
    return shape.flatMap(([key, field]) =>
      unused(
        field,
        values.map((v) => (v as Record<string, unknown>)[key]).filter((v) => v !== undefined),
        `${path}.${key}`,
      ),
    );
  }
  if (def.element) return unused(def.element, values.flat(1), `${path}[]`);
  if (def.valueType)
    return unused(
      def.valueType,
      values.flatMap((v) => Object.values(v as object)),
      `${path}{}`,
    );
  if (def.options?.every((option) => option._zod.def.type === 'literal')) return [];
  if (def.options) {
    return def.options.flatMap((option, i) =>
      unused(
        option,
        values.filter((v) => optionTakes(option, v)),
        `${path}|${i}`,
      ),
    );
  }
  return Object.values(def.entries ?? {})
    .filter((word) => !values.includes(word))
    .map((word) => `${path}=${word}`);
}

function optionTakes(option: Schema, value: unknown): boolean {
  return (option as z.ZodType).safeParse(value).success;
}

/** The example of the design document, section 3, word for word but for `key`, which it names and does not bring. */
function designExample(): unknown {
  return {
    keyfall: 1,
    title: 'Last boat',
    notes: '',
    site: {
      mains: { volts: 230, hertz: 50 },
      sky: { illuminance_lx: 0.3, cct_K: 4100 },
      place: { latitude_deg: 53.4, longitude_deg: -2.1, start: '2027-03-04T20:00:00Z' },
      keepOut: [
        {
          id: 'edge',
          name: 'Quay edge',
          outline_m: [
            [-15, 2.6],
            [15, 2.6],
            [15, 3],
            [-15, 3],
          ],
        },
      ],
    },
    calibration: { flat: 250, dome: 330, reflected: 12.5 },
    materials: {
      'hull-gloss': {
        name: 'Gloss hull paint',
        reflectance: [0.03, 0.08, 0.12],
        roughness: 0.04,
        coatIor: 1.5,
      },
      polished: { name: 'Polished alloy', metal: 'aluminium', roughness: 0.1 },
      'asphalt-wet': { name: 'Wet asphalt', reflectance: 0.06, roughness: 0.25, coatIor: 1.33 },
    },
    panes: { 'dirty-glass': { name: 'Dirty glass', direct: 0.45, scattered: 0.25, spread_deg: 60 } },
    solids: [
      {
        id: 'quay',
        name: 'Quay',
        shape: 'box',
        size_m: [30, 0.6, 6],
        position_m: [0, -0.3, 0],
        rotation_deg: [0, 0, 0],
        material: 'asphalt-wet',
      },
      {
        id: 'boat',
        name: 'Boat',
        shape: 'vehicle',
        size_m: [24, 3.0, 3.2],
        wall_m: 0.06,
        roofRadius_m: 0.4,
        position_m: [0, 0, -4],
        rotation_deg: [0, 0, 0],
        material: 'hull-gloss',
        inside: 'hull-gloss',
        windows: [
          {
            side: 'right',
            count: 8,
            first_m: 2.0,
            pitch_m: 2.5,
            width_m: 1.4,
            sill_m: 1.3,
            head_m: 2.1,
            pane: 'dirty-glass',
          },
        ],
      },
    ],
    figures: [
      {
        id: 'ada',
        name: 'Ada',
        position_m: [-2, 0, 1],
        heading_deg: 90,
        pose: 'standing',
        height_m: 1.7,
        skin: 'skin-mid',
        upper: 'wool-dark',
        lower: 'wool-dark',
      },
    ],
    heads: {
      big: {
        name: 'Large daylight discharge',
        photometry: { kind: 'beam', peak_cd: 140000, beam_deg: 50, field_deg: 80 },
        face: { shape: 'disc', diameter_m: 0.3 },
        spectrum: { kind: 'discharge', cct_K: 5600 },
        electrical: { kind: 'discharge', input_W: 2070, powerFactor: 0.98, flicker: 'free' },
        mass_kg: 12,
        windArea_m2: 0.15,
      },
    },
    lamps: [
      {
        id: 'back',
        name: 'Backlight',
        head: 'big',
        position_m: [25, 3, 1],
        aim_m: [0, 1.5, 0],
        level: 1,
        on: true,
        filters: ['half-ctb'],
        stand: { maxHeight_m: 3.8, footRadius_m: 0.6 },
        supply: 'gen',
      },
      { id: 'key', head: 'big', position_m: [5, 3, 1], aim_m: [0, 1.5, 0] },
    ],
    marks: [
      { id: 'ada-face', name: 'Ada, face', position_m: [-2, 1.55, 1.1], facing: 'camera', receptor: 'dome' },
    ],
    cameras: [
      {
        id: 'a',
        name: 'A',
        position_m: [-8, 1.5, 3],
        look_m: [0, 1.4, 0],
        sensor_mm: [36, 24],
        aspect: 1.7778,
        focal_mm: 35,
        fNumber: 4,
        shutter_s: 0.02,
        iso: 800,
        nd_stops: 0,
        loss_stops: 0,
        whiteBalance_K: 4300,
        focus_m: 6,
      },
    ],
    haze: { visibility_m: 200, albedo: 0.95, anisotropy: 0.8 },
    supplies: [
      {
        id: 'gen',
        name: 'Generator',
        kind: 'generator',
        volts: 230,
        breaker_A: 16,
        continuous: 0.8,
        cable: { length_m: 50, area_mm2: 2.5 },
      },
    ],
    paths: [
      {
        id: 'cross',
        of: 'walker',
        points: [
          { t_s: 0, position_m: [-6, 0, 3] },
          { t_s: 4, position_m: [2, 0, 1] },
        ],
      },
    ],
    setups: [{ id: '1a', name: 'Backlight only', changes: { key: { on: false } } }],
    readings: [{ id: 'r1', mark: 'ada-face', lamps: ['back'], receptor: 'dome', illuminance_lx: 137 }],
  };
}
