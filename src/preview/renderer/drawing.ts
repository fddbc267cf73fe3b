import { deleteFloatTarget, drawInto, type FloatTarget, newFloatTarget } from '../gl/float-target.ts';
import { bindTextures, drawAllPixels, type Program } from '../gl/program.ts';
import type { PixelRectangle } from '../gl/read-back.ts';
import { setUniforms } from '../gl/uniforms.ts';
import type { Texels } from '../pack/texels.ts';
import type { Chunk } from '../shaders/chunk.ts';
import { frame } from '../shaders/frame.ts';
import { guide } from '../shaders/guide.ts';
import { mixLight } from '../shaders/mix-light.ts';
import { show } from '../shaders/show.ts';
import { smoothLight } from '../shaders/smooth-light.ts';
import { waveEnded } from '../shaders/wave-ended.ts';
import { waveGo } from '../shaders/wave-go.ts';
import { waveHit } from '../shaders/wave-hit.ts';
import { waveKeep } from '../shaders/wave-keep.ts';
import { waveLight } from '../shaders/wave-light.ts';
import { waveStart } from '../shaders/wave-start.ts';
import {
  type Accumulation,
  errorShare,
  replicated,
  samplesBySum,
  targetsOf,
  tracedNext,
  tracesAll,
} from './accumulation.ts';
import { newDataTextures } from './data-textures.ts';
import { type Keeping, keptTexels, type Mix, sumFactors, sumsAtWork } from './light-keeping.ts';
import { lightParts } from './light-parts.ts';
import { replicateSamples } from './noise.ts';
import type { PreviewScene } from './preview-scene.ts';
import { newPrograms } from './programs.ts';
import { needsGuide, type Showing, showUniforms } from './showing.ts';
import { takeUp } from './take-up.ts';
import type { Picture, View } from './view.ts';
import { newWave, type WavePrograms } from './wave.ts';

/** What is drawn: a scene seen so, its lamps mixed so. */
export interface Subject {
  readonly scene: PreviewScene;
  readonly view: View;
  readonly keeping: Keeping;
  readonly mix: Mix;
}

/** The calls to the card. Holds what stands there beside accumulations, all of which is gone when the context is. */
export interface Drawing {
  /** Asks for one more sample of a tile; the program that began it, null while the driver still builds one. */
  sample(subject: Subject, into: Accumulation, tile: PixelRectangle): Program | null;
  /** Once that is drawn: whether the sample is whole; otherwise more of it is asked for. */
  finish(): boolean;
  /** The light so far, linear RGB. Valid until the next call. */
  light(subject: Subject, of: Picture): FloatTarget;
  /** Draws what there is on the canvas. */
  show(subject: Subject, of: Picture, showing: Showing): void;
  dispose(): void;
}

/** Between the places that are averaged, pass by pass. */
const SMOOTHING_px = [1, 2, 4, 8];

/** Of targets that are for the same: a coarse frame's and a whole one's. */
const SIZES_KEPT = 2;

/** Programs that make a picture of the light, whatever the scene. */
const GUIDE = ['guide', () => guide] as const;
const SMOOTH = ['smooth', () => smoothLight] as const;
const SHOW = ['show', () => show] as const;
const mixOf = (sums: number) => [`mix ${sums}`, () => mixLight(sums)] as const;

/** Where replicates cannot tell. */
const NO_SAMPLES = { from: 0, to: 0 };

type Numbers = Record<string, readonly number[]>;

/** `apart`: turn by turn, by many small programs (wave.ts), rather than by one; needs blending into floats. */
export function newDrawing(gl: WebGL2RenderingContext, seed: number, apart: boolean): Drawing {
  const programs = newPrograms(gl);
  const textures = newDataTextures(gl);
  /** By what they are for, the last used first: a coarse frame's and a whole one's are wanted in turns, and new ones wait for the card. */
  const scratch = new Map<string, readonly FloatTarget[]>();
  const wave = newWave(gl);

  /** Kept for the next calls of the same size. */
  const targetFor = (name: string, { width, height }: Accumulation, outputs: number): FloatTarget => {
    const known = scratch.get(name) ?? [];
    const fitting = known.find((target) => target.width === width && target.height === height);
    const others = known.filter((target) => target !== fitting);
    const kept = others.slice(0, SIZES_KEPT - 1);
    for (const target of others.slice(SIZES_KEPT - 1)) deleteFloatTarget(gl, target);
    scratch.set(name, kept);
    const target = fitting ?? newFloatTarget(gl, width, height, outputs);
    scratch.set(name, [target, ...kept]);
    return target;
  };

  /** Texels that were made anew every time would be taken to the card every time. */
  let kept:
    | { readonly key: string; readonly mix: Mix; readonly texels: ReturnType<typeof keptTexels> }
    | undefined;
  const sceneTextures = (
    { scene, view, keeping, mix }: Subject,
    traced = sumsAtWork(keeping, mix),
  ): Record<string, WebGLTexture> => {
    const key = [...keeping.sumOf, ...traced].join();
    if (kept?.key !== key || kept.mix !== mix) kept = { key, mix, texels: keptTexels(keeping, mix, traced) };
    return textures.take({
      ...scene.textures,
      keptTexels: kept.texels,
      ...(view.meters ? { meters: view.meters } : {}),
    });
  };

  const use = (
    program: Program,
    given: Record<string, WebGLTexture>,
    ...uniforms: readonly Numbers[]
  ): void => {
    takeUp(gl, program);
    bindTextures(gl, program, given);
    for (const numbers of uniforms) setUniforms(gl, program, numbers);
  };

  const light = ({ keeping, mix }: Subject, { frame: of, sums }: Picture): FloatTarget => {
    const program = programs.now(...mixOf(keeping.sums));
    const target = targetFor('light', of, 1);
    const atWork = sumsAtWork(keeping, mix);
    const told = tracesAll(of, atWork) && sums.every((one) => one === of);
    const textures = sums.map((one, i) => [`sum${i}`, one.targets!.done.textures[i]!] as const);
    use(
      program,
      { ...Object.fromEntries(textures), replicates: of.targets!.done.textures[keeping.sums]! },
      {
        frameSize: [of.width, of.height],
        sumFactors: sumFactors(keeping, mix),
        replicateSamples: replicateSamples(told ? replicated(of) : NO_SAMPLES),
        errorShare: [errorShare(of, atWork)],
      },
    );
    drawInto(gl, target);
    drawAllPixels(gl);
    return target;
  };

  /** Of bodies, whatever light falls on them. */
  let guided: { readonly bodies: Texels; readonly view: View; readonly of: Accumulation } | undefined;
  /** Null while the driver still builds its program. */
  const guideOf = (subject: Subject, of: Accumulation): FloatTarget | null => {
    const { scene, view } = subject;
    if (!view.lens) return null;
    const target = targetFor('guide', of, 2);
    const bodies = scene.textures.geometryTexels!;
    if (guided?.bodies === bodies && guided.view === view && guided.of === of) return target;
    const program = programs.ready(...GUIDE);
    if (!program) return null;
    use(program, sceneTextures(subject), scene.uniforms, cameraUniforms(view, of));
    drawInto(gl, target);
    drawAllPixels(gl);
    guided = { bodies, view, of };
    return target;
  };

  const smoothed = (of: Accumulation, noisy: FloatTarget, guides: FloatTarget): FloatTarget => {
    const program = programs.ready(...SMOOTH);
    if (!program) return noisy;
    let light = noisy;
    SMOOTHING_px.forEach((apart, i) => {
      const target = targetFor(`smooth ${i % 2}`, of, 1);
      const given = { light: light.textures[0]!, normalAndPart: guides.textures[0]! };
      use(program, given, { frameSize: [of.width, of.height], apart: [apart] });
      drawInto(gl, target);
      drawAllPixels(gl);
      light = target;
    });
    return light;
  };

  const wholeProgram = ({ scene: { features }, view, keeping: { sums } }: Subject): Program | null => {
    const ofMeters = view.meters !== null;
    return programs.ready(JSON.stringify(['whole', ofMeters, features, sums]), () =>
      frame(features, sums, ofMeters),
    );
  };

  const wavePrograms = ({ scene: { features }, view, keeping: { sums } }: Subject): WavePrograms | null => {
    const ofMeters = view.meters !== null;
    const named = (chunk: () => Chunk, ...name: readonly unknown[]) => [JSON.stringify(name), chunk] as const;
    const wanted = [
      named(() => waveStart(features, ofMeters), 'start', features, ofMeters),
      named(() => waveHit(features), 'hit', features),
      named(() => waveGo(features), 'go', features),
      named(() => waveEnded, 'ended'),
      named(() => waveKeep(sums), 'keep', sums),
      ...lightParts(features).map(({ kind, every, deeperEvery }) =>
        named(() => waveLight(features, sums, kind, every, deeperEvery), kind, features, sums),
      ),
    ];
    // None is taken before all are built: the driver builds them side by side, and answers nothing while it does. Those that
    // take longest are begun first.
    if (
      [...wanted]
        .reverse()
        .map((one) => programs.isBuilt(...one))
        .includes(false)
    )
      return null;
    const [start, hit, go, ended, keep, ...parts] = wanted.map((one) => programs.ready(...one));
    const lights = parts.filter((program) => program !== null);
    if (!start || !hit || !go || !ended || !keep || lights.length < parts.length) return null;
    return { start, hit, go, lights, ended, keep };
  };

  return {
    sample(subject, into, tile) {
      const { scene, view, keeping, mix } = subject;
      programs.nextTurn();
      const ready = apart ? wavePrograms(subject) : wholeProgram(subject);
      if (!ready) {
        // What will show the first light is built meanwhile.
        const showing = [mixOf(keeping.sums), SHOW, GUIDE, SMOOTH];
        for (const [name, chunk] of showing) programs.isBuilt(name, chunk);
        return null;
      }
      const { done, making } = targetsOf(gl, into, keeping.sums);
      const sums = Array.from({ length: keeping.sums }, (_, i) => i);
      const before = {
        ...Object.fromEntries(sums.map((i) => [`sumBefore${i}`, done.textures[i]!])),
        replicatesBefore: done.textures[keeping.sums]!,
      };
      const traced = tracedNext(into, sumsAtWork(keeping, mix));
      const begun = samplesBySum(into, sums).map((count) => Math.min(1, count));
      const numbers = {
        seed: [seed],
        samplesBefore: [into.samples],
        replicatesSince: [into.replicatesSince],
        sumFactors: sumFactors(keeping, mix),
        sumsTraced: traced,
        sumsBegun: begun,
        // The first sample of a sum is whole everywhere.
        wholeEverywhere: [Number(traced.some((one, i) => one && !begun[i]))],
      };
      const textures = sceneTextures(subject, traced);
      if ('lights' in ready) {
        const camera = cameraUniforms(view, into, tile);
        const uniforms = { ...scene.uniforms, ...camera, ...numbers, tileAt: [tile.x, tile.y] };
        const ofMeters = view.meters !== null;
        wave.begin({
          programs: ready,
          textures,
          uniforms,
          tile,
          sums: keeping.sums,
          ofMeters,
          hasty: into === view.coarse,
          before,
          making,
        });
        return ready.lights[0]!;
      }
      use(ready, { ...textures, ...before }, scene.uniforms, cameraUniforms(view, into), numbers);
      drawInto(gl, making);
      gl.enable(gl.SCISSOR_TEST);
      gl.scissor(tile.x, tile.y, tile.width, tile.height);
      drawAllPixels(gl);
      gl.disable(gl.SCISSOR_TEST);
      return ready;
    },
    finish: () => !apart || wave.keepOrGoOn(),
    light,
    show(subject, picture, showing) {
      const of = picture.frame;
      const noisy = light(subject, picture);
      const guides = needsGuide(showing) ? guideOf(subject, of) : null;
      const shown = guides && showing.smoothed ? smoothed(of, noisy, guides) : noisy;
      const given = {
        light: shown.textures[0]!,
        ...(guides ? { normalAndPart: guides.textures[0]!, owner: guides.textures[1]! } : {}),
      };
      const canvas = [gl.drawingBufferWidth, gl.drawingBufferHeight] as const;
      gl.bindFramebuffer(gl.FRAMEBUFFER, null);
      gl.viewport(0, 0, ...canvas);
      use(programs.now(...SHOW), given, showUniforms([of.width, of.height], canvas, showing));
      drawAllPixels(gl);
    },
    dispose() {
      programs.dispose();
      wave.dispose();
      textures.dispose();
      for (const target of [...scratch.values()].flat()) deleteFloatTarget(gl, target);
      scratch.clear();
    },
  };
}

/** A coarse frame is a whole picture of fewer pixels. `from`: where in the frame the pixels begin that are drawn. */
function cameraUniforms({ lens, part, whole }: View, of: Accumulation, from = { x: 0, y: 0 }): Numbers {
  const wholeSize = of === whole ? [part.wholeWidth, part.wholeHeight] : [of.width, of.height];
  const partAt = [part.x + from.x, part.y + from.y];
  if (!lens) return { namedFrom: [from.x, from.y], namedWidth: [0] };
  const { position_m, forward, right, up, halfWidth, halfHeight, pupil_m, focus_m } = lens;
  return {
    wholeSize,
    partAt,
    namedFrom: partAt,
    namedWidth: [wholeSize[0]!],
    lensPosition: position_m,
    lensForward: forward,
    lensRight: right,
    lensUp: up,
    lensNumbers: [halfWidth, halfHeight, pupil_m, focus_m],
  };
}
