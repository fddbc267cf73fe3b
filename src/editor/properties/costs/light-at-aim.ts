import { hazeLoss_stops } from '../../../core/haze/extinction.ts';
import { normalize, subtract } from '../../../core/math/vec3.ts';
import { inputUncertainty_stops } from '../../../core/meter/input-uncertainty.ts';
import { flux_lm } from '../../../core/photometry/flux.ts';
import { readPhotometricFile } from '../../../core/photometry/photometric-file.ts';
import { directLight } from '../../../core/transport/direct.ts';
import { type CompileMemo, compileScene, newCompileMemo } from '../../../scene/compile/compile-scene.ts';
import { headLight } from '../../../scene/compile/head-light.ts';
import type { SceneFiles } from '../../../scene/files/scene-files.ts';
import { entryNamed, LIBRARY } from '../../../scene/library/library.ts';
import type { SceneDocument } from '../../../scene/schema/document.ts';
import type { Head } from '../../../scene/schema/head.ts';
import type { Lamp } from '../../../scene/schema/lamp.ts';

/** What a lamp gives at the point it is aimed at, with nothing in its way. */
export interface LightAtAim {
  /** On a flat cell that faces the lamp, filters, level and haze counted, everything solid left out. */
  readonly illuminance_lx: number;
  readonly distance_m: number;
  /** Of what is known of its head and of the haze between, ±. */
  readonly uncertainty_stops: number;
}

/** What of a document bears on a lamp by itself. */
type LampParts = Pick<SceneDocument, 'heads' | 'filters' | 'haze'>;

const memo: CompileMemo = newCompileMemo();
const ERROR_stops = 0.02;
const MOST_SAMPLES = 4096;

/** Null where its head's photometric file is not inside the scene, or makes no light. */
export function lightAtAim({ heads, filters, haze }: LampParts, lamp: Lamp): LightAtAim | null {
  const head = entryNamed(heads, LIBRARY.heads, lamp.head);
  const files = head && filesOf(lamp.head, head);
  if (!files) return null;
  try {
    const alone: SceneDocument = {
      keyfall: 1,
      title: '',
      heads,
      filters,
      haze,
      lamps: [{ ...lamp, on: true }],
    };
    const model = compileScene(alone, files, LIBRARY, memo);
    const facing = normalize(subtract(lamp.position_m, lamp.aim_m));
    const meter = { position_m: lamp.aim_m, facing };
    const [light] = directLight(model, meter, {
      receptor: 'flat',
      error_stops: ERROR_stops,
      maxSamples: MOST_SAMPLES,
    }).lamps;
    const { flat_lx, hazed_m, distance_m } = light!;
    const share = {
      head: lamp.head,
      illuminance_lx: flat_lx,
      photometry_stops: model.lamps[0]!.photometryUncertainty_stops,
      hazeLoss_stops: hazeLoss_stops(model.haze?.extinction_per_m ?? 0, hazed_m),
    };
    return {
      illuminance_lx: flat_lx,
      distance_m,
      uncertainty_stops: inputUncertainty_stops([share], 0, 0),
    };
  } catch (error) {
    if (error instanceof Error) return null;
    throw error;
  }
}

/** Lumens, peak and trust of a head; null as above. */
export function headOutput(name: string, head: Head) {
  const files = filesOf(name, head);
  if (!files) return null;
  try {
    const { distribution, uncertainty_stops } = headLight(head, files.photometry.get(name));
    const peak_cd = distribution.kind === 'table' ? largest(distribution.candela) : distribution.peak_cd;
    return { flux_lm: flux_lm(distribution), peak_cd, uncertainty_stops };
  } catch (error) {
    if (error instanceof Error) return null;
    throw error;
  }
}

function largest(candela: Float64Array): number {
  return candela.reduce((most, one) => Math.max(most, one), 0);
}

const NO_FILES: SceneFiles = { photometry: new Map(), meshes: new Map() };
const read = new WeakMap<Head, SceneFiles | null>();

/** The head's own file, where the scene carries its text. */
function filesOf(name: string, head: Head): SceneFiles | null {
  const { photometry } = head;
  if (photometry.kind !== 'file') return NO_FILES;
  const { file, text, lampSet } = photometry;
  if (text === undefined) return null;
  let files = read.get(head);
  if (files === undefined) {
    try {
      files = { photometry: new Map([[name, readPhotometricFile(file, text, lampSet)]]), meshes: new Map() };
    } catch {
      files = null;
    }
    read.set(head, files);
  }
  return files;
}
