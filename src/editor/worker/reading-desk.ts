import type { Part } from '../../core/geometry/shape.ts';
import type { Face } from '../../core/lamps/face.ts';
import type { Lamp, LightModel, Pane, Surface } from '../../core/light-model/light-model.ts';
import type { Vec3 } from '../../core/math/vec3.ts';
import { beamAngle_deg, fieldAngle_deg, type PlaneAngles } from '../../core/photometry/beam-angle.ts';
import type { Distribution } from '../../core/photometry/distribution.ts';
import { linearRgbFromXyz } from '../../core/picture/linear-rgb.ts';
import { compileScene } from '../../scene/compile/compile-scene.ts';
import { sceneWarnings } from '../../scene/compile/scene-warnings.ts';
import { openScene } from '../../scene/file/open-scene.ts';
import { readSceneFiles } from '../../scene/files/scene-files.ts';
import { LIBRARY } from '../../scene/library/library.ts';
import {
  type MeteringMemo,
  type MeterReport,
  type SceneMetering,
  startMeteringScene,
} from '../../scene/meter/meter-scene.ts';
import { type Problem, SceneError } from '../../scene/problems/problem.ts';
import { correctedModel } from '../../scene/readings/corrected-model.ts';
import type { Corrections } from '../../scene/readings/corrections.ts';
import type { SceneDocument } from '../../scene/schema/document.ts';
import { sceneInSetup } from '../../scene/setups/scene-in-setup.ts';
import { type Ground, groundOf } from '../../scene/stands/ground.ts';
import type { DocumentChanges } from './document-changes.ts';
import { type BesideFiles, newKeptSet, readerOf } from './kept-set.ts';

export type { BesideFiles } from './kept-set.ts';

export interface Opening {
  readonly document: SceneDocument | null;
  readonly problems: readonly Problem[];
  /** Names of files that the scene needs and that were not beside it. */
  readonly missing: readonly string[];
}

export interface Question {
  readonly changes: DocumentChanges;
  /** Only when they are others than last time. */
  readonly beside?: BesideFiles;
  readonly setup: string | undefined;
  readonly camera: string | undefined;
  /** Straight light in milliseconds, or all light in about a second. */
  readonly light: 'direct' | 'all';
  /** Wanted numerical error, 95 %; the meter's own when left out. */
  readonly error_stops?: number;
  /** Whether what the working view draws is wanted too. */
  readonly drawn: boolean;
  /** What the night's readings say; worked out here when left out. */
  readonly corrections?: Corrections | null | undefined;
}

/** What the working view draws of the light model's bodies. */
export interface StageParts {
  readonly parts: readonly Part[];
  readonly surfaces: readonly Surface[];
  readonly panes: readonly Pane[];
}

/** How a lamp looks, wherever it stands. */
export interface LampLook {
  readonly id: string;
  readonly face: Face;
  /** Of the light after filters, linear sRGB with the largest part 1. */
  readonly colour: Vec3;
  readonly filterLoss_stops: number;
  readonly beam: PlaneAngles;
  readonly field: PlaneAngles;
}

export interface Answer {
  /** Null where the scene cannot be metered; `problems` says why. */
  readonly report: MeterReport | null;
  readonly problems: readonly Problem[];
  /** Those that the report was made with. */
  readonly corrections: Corrections | null;
  /** Null where none were asked for, or the scene does not compile. */
  readonly looks: readonly LampLook[] | null;
  /** Null while they are those of the answer before. */
  readonly stage: StageParts | null;
  /** By id, what each lamp stands over; null where `looks` is. */
  readonly grounds: ReadonlyMap<string, Ground> | null;
}

/** Works in the worker: opens scenes and reads the meter, and keeps what one reading can take over from the last. */
export interface ReadingDesk {
  open(text: string, beside: BesideFiles): Promise<Opening>;
  /**
   * Null when another question or `leaveOff` came before it was done. `onReport` hears what is read so far, while it is
   * not yet as exact as was asked.
   */
  read(question: Question, onReport?: (report: MeterReport) => void): Promise<Answer | null>;
  leaveOff(): void;
}

/** Between two reports of one reading. */
const REPORT_EVERY_ms = 250;

export function newReadingDesk(): ReadingDesk {
  const kept = newKeptSet();
  const metered: MeteringMemo = [];
  let partsSent: readonly Part[] | undefined;
  let turn = 0;

  return {
    open,
    leaveOff() {
      turn++;
    },
    async read(question, onReport) {
      const mine = ++turn;
      const document = kept.take(question.changes, question.beside);
      let looks: LampLook[] | null = null;
      let stage: StageParts | null = null;
      let grounds: Answer['grounds'] = null;
      let corrections: Corrections | null = null;
      try {
        const shown = sceneInSetup(document, question.setup);
        const { files, problems } = await kept.filesOf(shown);
        if (problems.some(isError)) return { report: null, problems, corrections, looks, stage, grounds };
        const model = compileScene(shown, files, LIBRARY, kept.memo);
        if (question.drawn) {
          looks = model.lamps.map(lookOf);
          grounds = new Map(model.lamps.map(({ id, frame }) => [id, groundOf(model, frame.origin_m)]));
          if (model.parts !== partsSent) stage = stageOf(model);
          partsSent = model.parts;
        }
        const { setup, camera, light, error_stops } = question;
        corrections =
          question.corrections === undefined ? await kept.correctionsOf(document) : question.corrections;
        const asMetered = correctedModel(model, shown, corrections);
        const request = { setup, camera, light, error_stops, corrections };
        const metering = startMeteringScene(shown, asMetered, request, metered);
        const done = await refined(metering, () => turn === mine, onReport);
        return done ? { report: metering.report(), problems: [], corrections, looks, stage, grounds } : null;
      } catch (error) {
        // A scene without a camera, or with a mark on a lamp, is still drawn; only its numbers are wanting.
        if (!(error instanceof SceneError)) throw error;
        return { report: null, problems: error.problems, corrections, looks, stage, grounds };
      }
    },
  };
}

/** Refines step by step, so that a newer question is heard in between. False when one came. */
async function refined(
  metering: SceneMetering,
  stillWanted: () => boolean,
  onReport: ((report: MeterReport) => void) | undefined,
): Promise<boolean> {
  let reported_ms = Number.NEGATIVE_INFINITY;
  while (!metering.done()) {
    if (onReport && performance.now() - reported_ms > REPORT_EVERY_ms) {
      onReport(metering.report());
      reported_ms = performance.now();
    }
    await new Promise((next) => setTimeout(next));
    if (!stillWanted()) return false;
    metering.refine();
  }
  return true;
}

async function open(text: string, beside: BesideFiles): Promise<Opening> {
  const opened = openScene(text);
  if (!opened.document) return { ...opened, missing: [] };
  const document = withPhotometryInside(opened.document, beside);
  const { files, problems } = await readSceneFiles(document, readerOf(beside));
  if (problems.some(isError)) {
    const missing = filesNamed(document).filter((name) => !beside.has(name));
    return { document: null, problems: problems.filter(isError), missing };
  }
  try {
    const warnings = sceneWarnings(document, files);
    return { document, problems: [...opened.problems, ...problems, ...warnings], missing: [] };
  } catch (error) {
    if (!(error instanceof SceneError)) throw error;
    return { document: null, problems: error.problems, missing: [] };
  }
}

/** A scene saved from the page carries its photometric files in itself. Their figures are ASCII; latin-1 loses no byte. */
function withPhotometryInside(document: SceneDocument, beside: BesideFiles): SceneDocument {
  if (!document.heads) return document;
  const heads = Object.entries(document.heads).map(([name, head]) => {
    const { photometry } = head;
    if (photometry.kind !== 'file' || photometry.text !== undefined) return [name, head];
    const bytes = beside.get(photometry.file);
    if (!bytes) return [name, head];
    return [name, { ...head, photometry: { ...photometry, text: new TextDecoder('latin1').decode(bytes) } }];
  });
  return { ...document, heads: Object.fromEntries(heads) };
}

function filesNamed(document: SceneDocument): string[] {
  const photometric = Object.values(document.heads ?? {}).flatMap(({ photometry }) =>
    photometry.kind === 'file' && photometry.text === undefined ? [photometry.file] : [],
  );
  const meshes = (document.solids ?? []).flatMap((solid) => (solid.shape === 'mesh' ? [solid.file] : []));
  return [...new Set([...photometric, ...meshes])];
}

function isError(problem: Problem): boolean {
  return problem.severity === 'error';
}

function stageOf({ parts, surfaces, panes }: LightModel): StageParts {
  return { parts, surfaces, panes };
}

const anglesOf = new WeakMap<Distribution, { beam: PlaneAngles; field: PlaneAngles }>();

function lookOf({ id, face, colour_XYZ, distribution, filterLoss_stops }: Lamp): LampLook {
  let angles = anglesOf.get(distribution);
  if (!angles) {
    angles = { beam: beamAngle_deg(distribution), field: fieldAngle_deg(distribution) };
    anglesOf.set(distribution, angles);
  }
  return { id, face, colour: brightest(colour_XYZ), filterLoss_stops, ...angles };
}

/** Linear RGB, as bright as it goes; a colour outside the triangle is brought to its edge. */
function brightest(colour_XYZ: Vec3): Vec3 {
  const [r, g, b] = linearRgbFromXyz(colour_XYZ);
  const largest = Math.max(r, g, b, 1e-6);
  return [Math.max(0, r) / largest, Math.max(0, g) / largest, Math.max(0, b) / largest];
}
