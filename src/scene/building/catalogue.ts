import type { Vec3 } from '../../core/math/vec3.ts';
import { LIBRARY } from '../library/library.ts';
import type { SceneDocument } from '../schema/document.ts';
import { POSES } from '../schema/figure.ts';
import { filterWords, headWords, materialWords, paneWords } from './entry-words.ts';
import { GENERIC_SOLIDS, type GenericSolid } from './generic-solids.ts';
import { GENERIC_VEHICLES } from './generic-vehicles.ts';
import { giveFilter, giveMaterial, giveOpening, givePane } from './give.ts';
import { JOB_PLANS, LAMP_JOBS, type LampJob } from './lamp-job.ts';
import { makeHazeBox, makeKeepOut } from './make-area.ts';
import { makeCamera, makeCameraAt } from './make-camera.ts';
import { makeFigure } from './make-figure.ts';
import { makeLamp } from './make-lamp.ts';
import { makeFigureMark, makeGroundMark, makeMarkInAir, makeSurfaceMark } from './make-mark.ts';
import { makePath } from './make-path.ts';
import { makeSetup } from './make-setup.ts';
import { makeSolid } from './make-solid.ts';
import { makeSupply, type SupplyKind } from './make-supply.ts';
import { type Group, type Made, nothingLacking, type Recipe, type Surroundings } from './recipe.ts';

/** Everything that can be added to a scene, in the order of `GROUPS`: the library's and the scene's own. */
export function catalogue(document: SceneDocument): readonly Recipe[] {
  return [
    ...LAMP_JOBS.map(lampOfJob),
    ...entries(LIBRARY.heads, document.heads).map(([id, head, own]) =>
      placed(
        `head:${id}`,
        'Lamps',
        head.name ?? id,
        `${ownWord(own)}${headWords(head)}`,
        ['head', 'light'],
        (s, p) => makeLamp(s, id, null, p),
      ),
    ),
    ...POSES.map((pose) =>
      placed(
        `figure:${pose}`,
        'Figures',
        `Figure, ${pose}`,
        'with a mark on the face',
        ['person', 'actor'],
        (s, p) => makeFigure(s, pose, false, p),
      ),
    ),
    placed(
      'figure:with-rim',
      'Figures',
      'Figure with face and rim marks',
      'standing, with a dome at the face and a flat cell at the rim',
      ['person', 'actor', 'edge'],
      (s, p) => makeFigure(s, 'standing', true, p),
    ),
    ...marks(),
    camera(),
    ...GENERIC_SOLIDS.map((generic) => solid(generic, 'Ground and set')),
    ...GENERIC_VEHICLES.map((generic) => solid(generic, 'Vehicles')),
    ...openings(),
    ...air(),
    ...power(),
    ...movesAndAreas(),
    {
      id: 'setup',
      group: 'Setups',
      name: 'Setup',
      about: 'Begins as what is shown; what you change from then on is its own',
      also: ['version', 'look'],
      points: [],
      lacking: nothingLacking,
      make: makeSetup,
    },
    ...entries(LIBRARY.filters, document.filters).map(([id, filter, own]) =>
      forChosen(
        `filter:${id}`,
        'Filters',
        filter.name ?? id,
        `${ownWord(own)}${filterWords(filter)}`,
        'a lamp',
        (s) => giveFilter(s, id),
      ),
    ),
    ...entries(LIBRARY.materials, document.materials).map(([id, material, own]) =>
      forChosen(
        `material:${id}`,
        'Materials',
        material.name ?? id,
        `${ownWord(own)}${materialWords(material)}`,
        'a solid or a figure',
        (s) => giveMaterial(s, id),
      ),
    ),
    ...entries(LIBRARY.panes, document.panes).map(([id, pane, own]) =>
      forChosen(
        `pane:${id}`,
        'Panes',
        pane.name ?? id,
        `${ownWord(own)}${paneWords(pane)}`,
        'a pane or a vehicle with windows',
        (s) => givePane(s, id),
      ),
    ),
  ];
}

/** Entries of the library and the document, whose own come first and stand for those of the same name. */
function entries<T>(
  library: Readonly<Record<string, T>>,
  own: Readonly<Record<string, T>> = {},
): [id: string, entry: T, own: boolean][] {
  const inherited = Object.entries(library).filter(([id]) => !Object.hasOwn(own, id));
  return [
    ...Object.entries(own).map(([id, entry]): [string, T, boolean] => [id, entry, true]),
    ...inherited.map(([id, entry]): [string, T, boolean] => [id, entry, false]),
  ];
}

function ownWord(own: boolean): string {
  return own ? 'own: ' : '';
}

const ABOUT_JOBS: Readonly<Record<LampJob, string>> = {
  key: 'A soft box before the subject, on the side, at the camera’s zero',
  fill: 'A soft box beside the camera, two stops under',
  back: 'A strong discharge lamp far behind the subject, a stop over',
  rim: 'A small LED head behind and to the side, two thirds over',
};

function lampOfJob(job: LampJob): Recipe {
  const { name, head } = JOB_PLANS[job];
  return placed(`lamp:${job}`, 'Lamps', name, ABOUT_JOBS[job], ['lamp', 'light'], (s, p) =>
    makeLamp(s, head, job, p),
  );
}

function solid(generic: GenericSolid, group: Group): Recipe {
  const { id, name, about, also = [] } = generic;
  return placed(`solid:${id}`, group, name, about, also, (s, p) => makeSolid(s, generic, p));
}

function openings(): Recipe[] {
  return [
    forChosen(
      'vehicle:windows',
      'Vehicles',
      'Windows in the vehicle',
      'A row of clear glass in the side toward the camera',
      'a vehicle with room for it',
      (s) => giveOpening(s, 'windows'),
    ),
    forChosen(
      'vehicle:door',
      'Vehicles',
      'Door in the vehicle',
      'Closed, in the side toward the camera',
      'a vehicle with room for it',
      (s) => giveOpening(s, 'doors'),
    ),
  ];
}

/** With one point, or in a sensible place. */
function placed(
  id: string,
  group: Group,
  name: string,
  about: string,
  also: readonly string[],
  make: (surroundings: Surroundings, point_m?: Vec3) => Made,
): Recipe {
  return {
    id,
    group,
    name,
    about,
    also,
    points: ['Stand it here'],
    lacking: nothingLacking,
    make: (surroundings, points_m) => make(surroundings, points_m?.[0]),
  };
}

/** What is given to something that is chosen. */
function forChosen(
  id: string,
  group: Group,
  name: string,
  about: string,
  to: string,
  make: (surroundings: Surroundings) => Made | null,
): Recipe {
  return {
    id,
    group,
    name,
    about,
    points: [],
    lacking: (surroundings) => (make(surroundings) ? null : `choose ${to} first`),
    make: (surroundings) => make(surroundings)!,
  };
}

function marks(): Recipe[] {
  return [
    placed(
      'mark:air',
      'Marks',
      'Mark at face height',
      'A dome 1.6 m up, toward the camera',
      ['meter', 'dome'],
      makeMarkInAir,
    ),
    placed(
      'mark:ground',
      'Marks',
      'Mark on the ground',
      'A flat cell that looks up',
      ['meter', 'flat', 'shaft'],
      makeGroundMark,
    ),
    forChosen('mark:face', 'Marks', 'Face mark', 'A dome at the face of the chosen figure', 'a figure', (s) =>
      makeFigureMark(s, 'face'),
    ),
    forChosen(
      'mark:rim',
      'Marks',
      'Rim mark',
      'A flat cell at the chosen figure’s edge, toward its backlight',
      'a figure',
      (s) => makeFigureMark(s, 'rim'),
    ),
    {
      id: 'mark:surface',
      group: 'Marks',
      name: 'Mark on the surface in mid-frame',
      about: 'A flat cell on what the camera looks at',
      also: ['meter', 'flat', 'wall', 'side'],
      points: [],
      lacking: (s) =>
        s.camera ? (makeSurfaceMark(s) ? null : 'the camera looks at no solid') : 'add a camera first',
      make: (s) => makeSurfaceMark(s)!,
    },
  ];
}

function camera(): Recipe {
  return {
    id: 'camera',
    group: 'Cameras',
    name: 'Camera',
    about: 'Stand here, look there',
    also: ['view', 'lens', 'shot'],
    points: ['Stand here', 'Look there'],
    lacking: nothingLacking,
    make: (s, points_m) => (points_m ? makeCameraAt(s, points_m[0]!, points_m[1]!) : makeCamera(s)),
  };
}

const HAZES = [
  {
    id: 'thin',
    name: 'Thin haze',
    visibility_m: 4000,
    about: 'Visibility 4000 m: just seen in a strong beam',
  },
  { id: 'light', name: 'Light haze', visibility_m: 1200, about: 'Visibility 1200 m: a backlight glows' },
  {
    id: 'thick',
    name: 'Thick haze',
    visibility_m: 300,
    about: 'Visibility 300 m: beams show, and distance greys out',
  },
];

function air(): Recipe[] {
  return [
    ...HAZES.map(
      ({ id, name, visibility_m, about }): Recipe => ({
        id: `haze:${id}`,
        group: 'Air and sky',
        name,
        about,
        also: ['fog', 'smoke', 'atmosphere'],
        points: [],
        lacking: nothingLacking,
        make: () => ({
          commands: [{ do: 'change-section', section: 'haze', patch: { visibility_m } }],
          chosen: ['haze'],
          step: name,
        }),
      }),
    ),
    {
      id: 'haze:box',
      group: 'Air and sky',
      name: 'Box of haze',
      about: 'Haze hangs in boxes alone from then on, 4 m high',
      also: ['fog', 'smoke', 'region'],
      points: ['From this corner', 'To that corner'],
      lacking: nothingLacking,
      make: makeHazeBox,
    },
    {
      id: 'sky:town',
      group: 'Air and sky',
      name: 'Sky over a town',
      about: '0.3 lx from above, a common figure and no promise: meter it',
      also: ['night', 'ambient', 'moon'],
      points: [],
      lacking: nothingLacking,
      make: () => ({
        commands: [
          { do: 'change-section', section: 'site', patch: { sky: { illuminance_lx: 0.3, cct_K: 4100 } } },
        ],
        chosen: ['site'],
        step: 'Sky over a town',
      }),
    },
  ];
}

function power(): Recipe[] {
  const supply = (kind: SupplyKind, name: string, about: string, also: readonly string[]): Recipe => ({
    id: `supply:${kind}`,
    group: 'Power',
    name,
    about: `${about}; takes lamps that are plugged in nowhere`,
    also,
    points: [],
    lacking: nothingLacking,
    make: (s) => makeSupply(s, kind),
  });
  return [
    supply('socket', 'Socket', 'Mains with 25 m of cable', ['mains', 'circuit', 'supply']),
    supply('generator', 'Generator', '5 kVA with 50 m of cable', ['set', 'supply']),
    supply('battery', 'Battery', '150 Wh', ['supply', 'block']),
  ];
}

function movesAndAreas(): Recipe[] {
  return [
    {
      id: 'path',
      group: 'Moves and areas',
      name: 'Path',
      about: 'Of the figure, lamp or camera that is chosen; else a passer-by crosses',
      also: ['move', 'walk', 'track', 'walker'],
      points: ['From here', 'To there'],
      lacking: nothingLacking,
      make: makePath,
    },
    {
      id: 'keep-out',
      group: 'Moves and areas',
      name: 'Keep-out area',
      about: 'Where no stand may be put: an edge, a lane, a way out',
      also: ['zone', 'forbidden', 'exclusion', 'edge'],
      points: ['From this corner', 'To that corner'],
      lacking: nothingLacking,
      make: makeKeepOut,
    },
  ];
}
