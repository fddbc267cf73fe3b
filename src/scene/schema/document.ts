import { z } from 'zod';
import { camera } from './camera.ts';
import { figure } from './figure.ts';
import { filter } from './filter.ts';
import { head } from './head.ts';
import { lamp } from './lamp.ts';
import { mark, reading } from './mark.ts';
import { material, pane } from './material.ts';
import { path } from './path.ts';
import { fraction, id, name, notes, point_m, rotation_deg, size_m } from './primitives.ts';
import { setup } from './setup.ts';
import { site } from './site.ts';
import { solid } from './solid.ts';
import { supply } from './supply.ts';

/** The version that this program writes. Older ones are migrated, newer ones refused with a message. */
export const CURRENT_VERSION = 1;

/** Meter constants (ISO 2720): incident C for a flat and for a dome receptor, reflected K. */
const calibration = z.strictObject({
  flat: z.number().min(100).max(1000).optional(),
  dome: z.number().min(100).max(1000).optional(),
  reflected: z.number().min(5).max(30).optional(),
});

/** A box that haze fills, about its middle. */
const hazeRegion = z.strictObject({
  name: name.optional(),
  position_m: point_m,
  size_m: z.tuple([size_m, size_m, size_m]),
  rotation_deg: rotation_deg.optional(),
});

/** Haze of one density: in its regions or, without any, everywhere. */
const haze = z.strictObject({
  visibility_m: z.number().min(0.1).max(1e6),
  albedo: fraction.optional(),
  anisotropy: z.number().min(-0.99).max(0.99).optional(),
  regions: z.array(hazeRegion).min(1).max(16).optional(),
});

/** The whole scene. The order of the fields here is the order in which a scene is saved. */
export const sceneDocument = z.strictObject({
  keyfall: z.literal(CURRENT_VERSION),
  title: name,
  notes: notes.optional(),
  site: site.optional(),
  calibration: calibration.optional(),
  materials: z.record(id, material).optional(),
  panes: z.record(id, pane).optional(),
  filters: z.record(id, filter).optional(),
  solids: z.array(solid).max(20_000).optional(),
  figures: z.array(figure).max(500).optional(),
  heads: z.record(id, head).optional(),
  lamps: z.array(lamp).max(512).optional(),
  marks: z.array(mark).max(2_000).optional(),
  cameras: z.array(camera).max(64).optional(),
  haze: haze.optional(),
  supplies: z.array(supply).max(64).optional(),
  paths: z.array(path).max(200).optional(),
  setups: z.array(setup).max(200).optional(),
  readings: z.array(reading).max(2_000).optional(),
});
export type SceneDocument = z.infer<typeof sceneDocument>;
export type Calibration = z.infer<typeof calibration>;
export type HazeSettings = z.infer<typeof haze>;
export type HazeRegionSettings = z.infer<typeof hazeRegion>;

/** The lists whose members have an `id`, all in one space of names. */
export const LISTS = [
  'solids',
  'figures',
  'lamps',
  'marks',
  'cameras',
  'supplies',
  'paths',
  'setups',
  'readings',
] as const;
export type ListName = (typeof LISTS)[number];

/** The dictionaries, whose members are named by their key. */
export const DICTIONARIES = ['materials', 'panes', 'filters', 'heads'] as const;
export type DictionaryName = (typeof DICTIONARIES)[number];

/** Parts of the document that a setup may change although they have no id. */
export const SECTIONS = ['haze', 'site', 'calibration'] as const;
export type SectionName = (typeof SECTIONS)[number];
