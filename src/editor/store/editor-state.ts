import type { IlluminanceUnit } from '../../paperwork/exposure-sheet.ts';
import type { Problem } from '../../scene/problems/problem.ts';
import type { Corrections } from '../../scene/readings/corrections.ts';
import type { SceneDocument } from '../../scene/schema/document.ts';
import type { Ground } from '../../scene/stands/ground.ts';
import type { Answer, BesideFiles, LampLook, StageParts } from '../worker/reading-desk.ts';

/** A document and the bytes of the files that stand beside it, by name: what is opened, edited and undone as one. */
export interface Scene {
  readonly document: SceneDocument;
  readonly beside: BesideFiles;
}

/** Straight light only; all light, still being refined; all light, as exact as is wanted. */
export type Extent = 'straight' | 'settling' | 'all';

/** What the numbers on screen were computed for; they are stale when the page has moved on from it. */
export interface ShownReading extends Pick<Answer, 'report' | 'problems'> {
  readonly scene: Scene;
  readonly camera: string | undefined;
  readonly setup: string | undefined;
  readonly extent: Extent;
  /** From asking the worker to its answer. */
  readonly latency_ms: number;
}

export type LengthSystem = 'metric' | 'imperial';
/** Night: dark, without blue, for eyes that have adapted. Day: dark words on light ground, for a desk or the sun. */
export type Scheme = 'night' | 'day';

/** The night's readings, and what they correct; null where there are none. */
export interface Heard {
  readonly readings: SceneDocument['readings'];
  readonly corrections: Corrections | null;
}

/** A file that could not be opened, and every reason at once. */
export interface Refused {
  readonly title: string;
  readonly problems: readonly Problem[];
}

/** What is being done in one go: a drag, or a key that is held down. */
export type Gesture = 'drag' | 'keys';

export interface EditorState {
  /** Null until the first scene is open. With the name of its step all that undo goes back over. */
  readonly scene: Scene | null;
  /** What was done last, as undo names it: "Move Backlight". Empty for a scene that was opened. */
  readonly step: string;
  /** Counts the scenes that were opened, for what starts afresh with each. */
  readonly openings: number;
  /** Ids that were asked for; undefined: the first camera, the base. */
  readonly camera: string | undefined;
  readonly setup: string | undefined;
  /** What is chosen to look at and to change, of any kind; the last one is that whose properties are shown. */
  readonly chosen: readonly string[];
  /** The lamp and the mark that were chosen last: they stay lit while something else is chosen. */
  readonly lamp: string | undefined;
  readonly mark: string | undefined;
  /** Lamps left out of what is looked at; nothing of the scene. */
  readonly muted: ReadonlySet<string>;
  readonly unit: IlluminanceUnit;
  readonly lengths: LengthSystem;
  readonly scheme: Scheme;
  /** A drag or a held key is under way: numbers are of straight light, and history takes it as one step. */
  readonly gesture: Gesture | null;
  /** Why the last edit was not taken. */
  readonly refusedEdit: string | null;
  readonly refusedFile: Refused | null;
  /** What the opened file is worth knowing about although it is valid. */
  readonly warnings: readonly Problem[];
  readonly reading: ShownReading | null;
  /** What the night's readings were last found to say, and which they were; null until all light of this scene was read once. */
  readonly heard: Heard | null;
  /** What kept the last numbers from being worked out, in words. */
  readonly readingFailure: string | null;
  readonly storageNotice: string | null;
  /** What the working view draws: bodies, and how each lamp's light looks. */
  readonly stage: StageParts | null;
  readonly looks: ReadonlyMap<string, LampLook>;
  /** By id of a lamp, what it stands over: only the worker has the bodies to tell. Empty until it has answered. */
  readonly grounds: ReadonlyMap<string, Ground>;
}

export const INITIAL_STATE: EditorState = {
  scene: null,
  step: '',
  openings: 0,
  camera: undefined,
  setup: undefined,
  chosen: [],
  lamp: undefined,
  mark: undefined,
  muted: new Set(),
  unit: 'lx',
  lengths: 'metric',
  scheme: 'night',
  gesture: null,
  refusedEdit: null,
  refusedFile: null,
  warnings: [],
  reading: null,
  heard: null,
  readingFailure: null,
  storageNotice: null,
  stage: null,
  looks: new Map(),
  grounds: new Map(),
};
