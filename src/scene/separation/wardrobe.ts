import type { LightModel } from '../../core/light-model/light-model.ts';
import { outlineSummary } from '../../core/separation/outline-summary.ts';
import { pieceContrast, rereadInside } from '../../core/separation/read-outline.ts';
import { newTracer } from '../../core/transport/tracer.ts';
import { entryNamed, LIBRARY } from '../library/library.ts';
import type { SceneDocument } from '../schema/document.ts';
import { type ReadFigure, type ReadSeparation, sightOf } from './read-separation.ts';
import { samplesOf } from './separation-report.ts';

/** The materials of the library that are worn. */
export const CLOTHS = [
  'black-cloth',
  'canvas-natural',
  'cotton-white',
  'denim-blue',
  'leather-black',
  'linen-sand',
  'velvet-black',
  'wool-dark',
  'wool-grey',
  'wool-red',
] as const;

/** How a figure would stand out in another cloth, worn above and below the waist. */
export interface WardrobeRow {
  readonly material: string;
  readonly name: string;
  readonly worn: boolean;
  readonly share_over_1_stop: number;
  readonly median_stops: number;
  readonly lighter_share: number;
  readonly worst: { readonly part: string; readonly stops: number; readonly numerical_stops: number };
}

/** Paths per batch and cell: a row is good to about a quarter of a stop at a stretch. */
const PATHS = 2;

/**
 * The cloths of the library and those that the scene's figures wear, the one that separates best first. For each the scene
 * is compiled with the figure in that cloth and the light on the figure is read anew, so gloss, colour and spectrum of the
 * cloth are what they are; what is behind is taken as it was, because a coat hardly lights its background.
 */
export function wardrobeRows(
  read: ReadSeparation,
  figure: ReadFigure,
  compile: (variant: SceneDocument) => LightModel,
): WardrobeRow[] {
  if (figure.readings.length === 0) return [];
  const { document, lens, camera } = read;
  const sight = sightOf(document, camera, read.monochrome);
  const rows = wornOrWorth(document).map((material): WardrobeRow => {
    const tracer = newTracer(compile(inCloth(document, figure.figure.id, material)));
    const readings = rereadInside({ tracer, lens, figure: figure.owner }, figure.readings, PATHS);
    const dressed = { ...figure, readings };
    const { upper, lower } = figure.figure;
    return {
      material,
      name: entryNamed(document.materials, LIBRARY.materials, material)?.name ?? material,
      worn: upper === material && lower === material,
      ...outlineSummary(samplesOf(dressed, sight).map((sample) => sample.stops)),
      worst: figure.stretches
        .map((stretch) => {
          const { stops, numerical_stops } = pieceContrast(
            stretch.cells.map((i) => readings[i]!),
            sight,
          );
          return { part: stretch.key, stops, numerical_stops };
        })
        .reduce((worst, s) => (Math.abs(s.stops) < Math.abs(worst.stops) ? s : worst)),
    };
  });
  return rows.sort((a, b) => b.share_over_1_stop - a.share_over_1_stop || b.median_stops - a.median_stops);
}

function wornOrWorth({ figures }: SceneDocument): string[] {
  const worn = (figures ?? []).flatMap(({ upper, lower }) => [upper, lower]);
  return [...new Set([...CLOTHS, ...worn.filter((material) => material !== undefined)])];
}

function inCloth(document: SceneDocument, id: string, material: string): SceneDocument {
  const figures = (document.figures ?? []).map((f) =>
    f.id === id ? { ...f, upper: material, lower: material } : f,
  );
  return { ...document, figures };
}
