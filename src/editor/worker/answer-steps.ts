import { chosenCamera } from '../../scene/camera/scene-camera.ts';
import { lensReport } from '../../scene/framing/lens-report.ts';
import { sharpRegion } from '../../scene/framing/sharp-region.ts';
import { searchCures } from '../../scene/mirror/cures/cures.ts';
import { findSceneGlints } from '../../scene/mirror/find-scene-glints.ts';
import { powerScene } from '../../scene/power/power-scene.ts';
import { readingsReport } from '../../scene/readings/readings-report.ts';
import { riggingScene } from '../../scene/rigging/rigging-scene.ts';
import { conversionRows } from '../../scene/separation/conversions.ts';
import { type ReadSeparation, readSeparation } from '../../scene/separation/read-separation.ts';
import { separationReport } from '../../scene/separation/separation-report.ts';
import { CLOTHS, wardrobeRows } from '../../scene/separation/wardrobe.ts';
import { walkReport } from '../../scene/walk/walk-report.ts';
import { chosenWalker, withoutWalker } from '../../scene/walk/walker.ts';
import type { AnswerKind, AnswerOf, AskedOf } from './answer-kinds.ts';
import { figureOutlines } from './answer-outlines.ts';
import type { AnswerSet } from './answer-set.ts';
import { skyCurve } from './answer-sky-curve.ts';

/** How far a long answer is, 0..1, and what can be shown of it already. */
export interface AnswerStep<K extends AnswerKind = AnswerKind> {
  readonly share: number;
  readonly soFar?: AnswerOf<K>;
}

/** Between two steps a newer question is heard; `tell` says how far it is within one. */
type Steps<K extends AnswerKind> = (
  set: AnswerSet,
  asked: AskedOf<K>,
  tell: (share: number) => void,
) => Generator<AnswerStep<K>, AnswerOf<K>>;

/** Every answer by the functions that the command line answers with, so that both have the same digits. */
export const ANSWER_STEPS: { readonly [K in AnswerKind]: Steps<K> } = {
  *glints(set, { cures }) {
    const { document, setup, camera: asked } = set;
    const model = set.model();
    const report = findSceneGlints(document, model, { setup, camera: asked, readings: set.readings });
    if (!cures) return { report, cures: null };
    yield { share: 0.1, soFar: { report, cures: null } };
    const camera = chosenCamera(document, report.camera);
    const search = searchCures({ document, model, camera });
    const pairs = new Set(report.glints.filter(({ burns }) => burns).map((g) => `${g.lamp} ${g.solid}`));
    for (let moves = 1; ; moves++) {
      const { done, value } = search.next();
      if (done) return { report, cures: value };
      yield { share: 0.1 + 0.9 * Math.min(1, moves / (pairs.size * MOVES_A_PAIR)) };
    }
  },

  *separation(set, { monochrome }) {
    const figures = set.document.figures ?? [];
    // Without figures the question is asked all the same, for the words of what is missing.
    const ids = figures.length > 0 ? figures.map(({ id }) => id) : [undefined];
    const found: AnswerOf<'separation'>[] = [];
    for (const [i, figure] of ids.entries()) {
      const read = readFigure(set, figure, monochrome);
      const conversions = new Map(read.figures.map((one) => [one.figure.id, conversionRows(read, one)]));
      found.push({ report: separationReport(read), conversions, outlines: figureOutlines(read) });
      if (i < ids.length - 1) yield { share: (i + 1) / ids.length, soFar: together(found) };
    }
    return together(found);
  },

  *wardrobe(set, { figure, monochrome }, tell) {
    if (figure === null) return null;
    const read = readFigure(set, figure, monochrome);
    yield { share: 0.1 };
    let tried = 0;
    const rows = wardrobeRows(read, read.figures[0]!, (variant) => {
      tell(0.1 + (0.9 * tried++) / (CLOTHS.length + 1));
      return set.modelOf(variant);
    });
    return { figure, rows };
  },

  // biome-ignore lint/correctness/useYield: answered in one step
  *power({ document, setup }, asked) {
    return powerScene(document, { ...asked, setup });
  },

  // biome-ignore lint/correctness/useYield: answered in one step
  *lens(set, asked) {
    const { document, setup, camera } = set;
    return lensReport(document, set.planned(), { ...asked, setup, camera });
  },

  // biome-ignore lint/correctness/useYield: answered in one step
  *focus(set) {
    return sharpRegion(set.document, set.planned(), set.camera);
  },

  // biome-ignore lint/correctness/useYield: answered in one step
  *night({ document, setup, camera }, asked) {
    return skyCurve(document, { ...asked, setup, camera });
  },

  // biome-ignore lint/correctness/useYield: answered in one step
  *walk(set, { path, rate_fps }) {
    const walker = chosenWalker(set.document, path);
    const document = withoutWalker(set.document, walker);
    const model = document === set.document ? set.model() : set.modelOf(document);
    const { setup, camera, readings } = set;
    return walkReport(document, model, walker, { setup, camera, readings, rate_fps });
  },

  // biome-ignore lint/correctness/useYield: answered in one step
  *stands(set, asked) {
    const { document, setup } = set;
    return riggingScene(document, set.planned(), { ...asked, setup });
  },

  // biome-ignore lint/correctness/useYield: answered in one step
  *readings({ base, baseFiles }) {
    return readingsReport(base, baseFiles);
  },
};

/** Kinds of moves that are tried for a lamp and the thing that mirrors it: about so many. */
const MOVES_A_PAIR = 12;

/** Figures are read one by one, which gives the same as all at once. */
function readFigure(
  set: AnswerSet,
  figure: string | undefined,
  monochrome: AskedOf<'separation'>['monochrome'],
): ReadSeparation {
  const { document, setup, camera, readings } = set;
  return set.once(`separation ${figure} ${JSON.stringify(monochrome)}`, () =>
    readSeparation(document, set.model(), { setup, camera, figure, monochrome, readings }),
  );
}

function together(found: readonly AnswerOf<'separation'>[]): AnswerOf<'separation'> {
  return {
    report: { ...found[0]!.report, figures: found.flatMap(({ report }) => report.figures) },
    conversions: new Map(found.flatMap(({ conversions }) => [...conversions])),
    outlines: found.flatMap(({ outlines }) => outlines),
  };
}

export const ANSWER_KINDS = Object.keys(ANSWER_STEPS) as readonly AnswerKind[];
