import type { ThinLens } from '../../core/camera/thin-lens.ts';
import { zeroOf } from '../../core/exposure/zero.ts';
import type { LightModel } from '../../core/light-model/light-model.ts';
import { luminanceOfRgb } from '../../core/picture/linear-rgb.ts';
import { times } from '../../core/picture/matrix3.ts';
import { DEFAULT_TONE_RANGE } from '../../core/picture/tone-curve.ts';
import { whiteBalance } from '../../core/picture/white-balance.ts';
import type { CameraSight } from '../../core/separation/contrast.ts';
import { type CutOutline, cutOutline } from '../../core/separation/edge-cell.ts';
import { type EdgeReading, readOutline } from '../../core/separation/read-outline.ts';
import { type Stretch, stretchesOf } from '../../core/separation/stretch.ts';
import { newTracer, type Tracer } from '../../core/transport/tracer.ts';
import {
  calibrationOf,
  chosenCamera,
  DEFAULT_WHITE_BALANCE_K,
  exposureOf,
  lensOf,
} from '../camera/scene-camera.ts';
import { conversionOf } from '../monochrome/monochrome.ts';
import { nearestName } from '../problems/nearest-name.ts';
import { problemAt, SceneError, shown } from '../problems/problem.ts';
import type { Camera, Monochrome } from '../schema/camera.ts';
import type { SceneDocument } from '../schema/document.ts';
import type { Figure } from '../schema/figure.ts';
import { bodyPartNames } from './body-part.ts';
import { silhouetteOf } from './silhouette.ts';

export interface SeparationRequest {
  readonly setup?: string | undefined;
  readonly camera?: string | undefined;
  readonly figure?: string | undefined;
  /** Wanted numerical error of a stretch. */
  readonly error_stops?: number | undefined;
  /** In place of the camera's own; null for colour. */
  readonly monochrome?: Monochrome | null | undefined;
  /** How many readings of the night the model has been corrected by. */
  readonly readings?: number | undefined;
}

const DEFAULT_ERROR_STOPS = 0.1;
/** Pieces of outline in frame. */
const CELLS = 120;
/** A figure's outline with the light on either side of it read: what every further question is answered from. */
export interface ReadFigure {
  readonly figure: Figure;
  readonly owner: number;
  readonly outline: CutOutline;
  readonly stretches: readonly Stretch<string>[];
  readonly readings: readonly EdgeReading[];
}

/** A scene's figures before a camera, read. */
export interface ReadSeparation {
  readonly document: SceneDocument;
  readonly model: LightModel;
  readonly camera: Camera;
  readonly lens: ThinLens;
  readonly setup: string | null;
  readonly correctedBy: number;
  readonly monochrome: Monochrome | null;
  readonly figures: readonly ReadFigure[];
}

/**
 * Reads the light on either side of every figure's outline (or of one figure's). The setup has been applied and the
 * document compiled to `model`. Throws SceneError without a camera, figures or light,
 * and for unknown ids.
 */
export function readSeparation(
  document: SceneDocument,
  model: LightModel,
  request: SeparationRequest = {},
): ReadSeparation {
  const camera = chosenCamera(document, request.camera);
  const figures = chosenFigures(document, request.figure);
  refuseDarkness(document, model);
  const lens = lensOf(camera);
  const monochrome = request.monochrome === undefined ? (camera.monochrome ?? null) : request.monochrome;
  const sight = sightOf(document, camera, monochrome);
  const tracer = newTracer(model);
  const error_stops = request.error_stops ?? DEFAULT_ERROR_STOPS;
  return {
    document,
    model,
    camera,
    lens,
    setup: request.setup ?? null,
    correctedBy: request.readings ?? 0,
    monochrome,
    figures: figures.map((figure) => readFigure(tracer, lens, figure, sight, error_stops)),
  };
}

function readFigure(
  tracer: Tracer,
  lens: ThinLens,
  figure: Figure,
  sight: CameraSight,
  error_stops: number,
): ReadFigure {
  const { model } = tracer;
  const owner = model.owners.findIndex(({ id }) => id === figure.id);
  const first = model.parts.findIndex((part) => part.owner === owner);
  const { rings } = silhouetteOf(
    lens,
    model.parts.filter((part) => part.owner === owner),
  );
  const outline = cutOutline(model, lens, owner, rings, CELLS);
  const nameOf = bodyPartNames(figure);
  const { cells } = outline;
  const stretches = stretchesOf(cells, ({ part, point_m }) => nameOf(part - first, point_m));
  const readings = readOutline({ tracer, lens, figure: owner }, cells, stretches, sight, error_stops);
  return { figure, owner, outline, stretches, readings };
}

function refuseDarkness(document: SceneDocument, { lamps, sky }: LightModel): void {
  if (lamps.some(({ gain }) => gain > 0) || (sky?.illuminance_lx ?? 0) > 0) return;
  const found = lamps.length > 0 ? 'no lamp that is on, and no sky' : 'no lamps and no sky';
  throw new SceneError([problemAt(document, ['lamps'], { found, expected: 'light to see the figures by' })]);
}

function chosenFigures(document: SceneDocument, id: string | undefined): readonly Figure[] {
  const figures = document.figures ?? [];
  const ids = figures.map((figure) => figure.id);
  if (figures.length === 0) {
    const expected = 'at least one person, whose outline is compared with what is behind';
    throw new SceneError([problemAt(document, ['figures'], { found: 'no figures', expected })]);
  }
  if (id === undefined) return figures;
  const figure = figures.find((f) => f.id === id);
  if (figure) return [figure];
  const found = `no figure ${shown(id)}`;
  const expected = `one of ${ids.join(', ')}`;
  throw new SceneError([
    problemAt(document, ['figures'], { found, expected, nearest: nearestName(id, ids) }),
  ]);
}

/** What a camera makes of light, in colour or in monochrome. */
export function sightOf(document: SceneDocument, camera: Camera, monochrome: Monochrome | null): CameraSight {
  const zero_cd_m2 = zeroOf(exposureOf(camera), calibrationOf(document)).luminance_cd_m2;
  if (!monochrome) return { greyOf: luminanceOfRgb, zero_cd_m2, range: DEFAULT_TONE_RANGE };
  const balance = whiteBalance(camera.whiteBalance_K ?? DEFAULT_WHITE_BALANCE_K);
  const conversion = conversionOf(monochrome);
  return { greyOf: (rgb) => conversion(times(balance, rgb)), zero_cd_m2, range: DEFAULT_TONE_RANGE };
}
