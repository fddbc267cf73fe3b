import type { KindTable } from '../field.ts';
import type { SubjectKind } from '../subject.ts';
import { CAMERA } from './camera.ts';
import { FILTER } from './filter.ts';
import { HEAD } from './head.ts';
import { LAMP } from './lamp.ts';
import { MATERIAL } from './material.ts';
import { PANE } from './pane.ts';
import { FIGURE, MARK, READING } from './people-and-marks.ts';
import { HAZE, KEEP_OUT, PATH, SITE, SUPPLY } from './place.ts';
import { CALIBRATION, SCENE, SETUP } from './scene.ts';
import { SOLID } from './solid.ts';

/** What can be set of every kind of thing that a scene holds. */
export const TABLES: Readonly<Record<SubjectKind, KindTable>> = {
  document: SCENE,
  lamps: LAMP,
  marks: MARK,
  cameras: CAMERA,
  solids: SOLID,
  figures: FIGURE,
  supplies: SUPPLY,
  paths: PATH,
  setups: SETUP,
  readings: READING,
  heads: HEAD,
  filters: FILTER,
  materials: MATERIAL,
  panes: PANE,
  haze: HAZE,
  site: SITE,
  keepOut: KEEP_OUT,
  calibration: CALIBRATION,
};
