import { deleteFloatTarget, drawInto, type FloatTarget, newFloatTarget } from '../gl/float-target.ts';
import { bindTextures, drawAllPixels, type Program } from '../gl/program.ts';
import type { PixelRectangle } from '../gl/read-back.ts';
import { setUniforms } from '../gl/uniforms.ts';
import { takeUp } from './take-up.ts';

/** The passes of shaders/wave-state.ts. */
export interface WavePrograms {
  readonly start: Program;
  readonly hit: Program;
  readonly go: Program;
  readonly lights: readonly Program[];
  readonly ended: Program;
  readonly keep: Program;
}

/** A sample of a tile. */
export interface WaveSample {
  readonly programs: WavePrograms;
  readonly textures: Readonly<Record<string, WebGLTexture>>;
  readonly uniforms: Readonly<Record<string, readonly number[]>>;
  readonly tile: PixelRectangle;
  readonly sums: number;
  /** Meters take a turn before they meet anything. */
  readonly ofMeters: boolean;
  /** For something to look at soon: paths are cut off after a few turns. */
  readonly hasty: boolean;
  /** What samples before have given, and where that goes with this one. */
  readonly before: Readonly<Record<string, WebGLTexture>>;
  readonly making: FloatTarget;
}

/** Draws samples turn by turn of all their paths. */
export interface Wave {
  /** Asks for the turns that most paths take. A sample that was not whole is given up; a hasty one is kept at once. */
  begin(sample: WaveSample): void;
  /** Once what was asked for is drawn: keeps the sample if no path goes on, else asks for more turns. Whether it is kept. */
  keepOrGoOn(): boolean;
  dispose(): void;
}

/** What stands on the card for every pixel of a tile. */
interface Buffers {
  readonly width: number;
  readonly height: number;
  readonly sums: number;
  /** Near where no path goes on. */
  readonly depth: WebGLRenderbuffer;
  readonly depthAlone: WebGLFramebuffer;
  /** Paths before a turn and after it, one and then the other. */
  readonly paths: readonly [FloatTarget, FloatTarget];
  readonly ahead: FloatTarget;
  readonly light: FloatTarget;
}

/** So many turns at once, at first and at least; more where paths are seen to need more, and these many after those. */
const TURNS = 8;
const LEARNT = 4;
const MOST_AT_ONCE = 32;
/**
 * A hasty sample has TURNS at least, and more where there are fewer passes in one: these together. What comes after them it lacks:
 * of the light of the demo's frame less than a hundredth of a per cent after eight turns, of that of a white room without haze or
 * mirrors 14 % after eight and 2 % after sixteen.
 */
const HASTY_PASSES = 64;
/** Sizes of buffers are multiples of this, so that tiles that grow a little need no new ones. */
const STEP_px = 64;
/** Tiles grow, and new buffers wait for the card: they are made so much longer and wider than the tile that wants them. */
const ROOM = 1.5;
/** What buffers may hold that fit tiles of several shapes: half as much again as the largest tile. */
const MOST_PIXELS = 1.5 * 2 ** 19;
const DEPTH_DRAWN = 0.5;

const PATH_SAMPLERS = ['pathPlace', 'pathAlong', 'pathCarries', 'pathBefore'] as const;
const AHEAD_SAMPLERS = ['aheadNormal', 'aheadNames'] as const;
const NEXT_SAMPLER = 'nextPlace';

export function newWave(gl: WebGL2RenderingContext): Wave {
  let buffers: Buffers | null = null;
  let pending: { readonly sample: WaveSample; turns: number } | null = null;
  let query: WebGLQuery | null = null;
  let atOnce = TURNS;

  const buffersFor = ({ width, height }: PixelRectangle, sums: number): Buffers => {
    const before = buffers?.sums === sums ? buffers : { width: 0, height: 0 };
    if (buffers && before.width >= width && before.height >= height) return buffers;
    if (buffers) deleteBuffers(gl, buffers);
    buffers = null;
    const up = (size: number) => Math.ceil(size / STEP_px) * STEP_px;
    // Large enough for the tiles before too, which differ in shape from band to band.
    const both = [Math.max(up(width), before.width), Math.max(up(height), before.height)] as const;
    const alone = [up(width), up(height)] as const;
    const [w, h] = both[0] * both[1] <= MOST_PIXELS ? both : alone;
    const roomier = [up(ROOM * w), up(ROOM * h)] as const;
    buffers = newBuffers(gl, ...(roomier[0] * roomier[1] <= MOST_PIXELS ? roomier : ([w, h] as const)), sums);
    return buffers;
  };

  /** Units of textures are the same for all passes, so that each is bound once a turn. */
  const bindAll = (
    textures: Readonly<Record<string, WebGLTexture>>,
    units: ReadonlyMap<string, number>,
  ): void => {
    for (const [name, texture] of Object.entries(textures)) {
      gl.activeTexture(gl.TEXTURE0 + units.get(name)!);
      gl.bindTexture(gl.TEXTURE_2D, texture);
    }
  };

  const pathTextures = ({ paths, ahead }: Buffers, turn: number): Record<string, WebGLTexture> => {
    const [from, to] = turn % 2 === 0 ? paths : [paths[1], paths[0]];
    const named = (names: readonly string[], { textures }: FloatTarget) =>
      names.map((name, i) => [name, textures[i]!]);
    return Object.fromEntries([
      ...named(PATH_SAMPLERS, from),
      ...named(AHEAD_SAMPLERS, ahead),
      [NEXT_SAMPLER, to.textures[0]!],
    ]);
  };

  const unitsOf = ({ textures }: WaveSample): Map<string, number> =>
    new Map(
      [...Object.keys(textures), ...PATH_SAMPLERS, ...AHEAD_SAMPLERS, NEXT_SAMPLER].map((name, i) => [
        name,
        i,
      ]),
    );

  const passesOf = ({ start, hit, go, lights, ended }: WavePrograms) => [start, hit, go, ...lights, ended];

  const draw = (
    program: Program,
    target: WebGLFramebuffer,
    numbers: Readonly<Record<string, readonly number[]>> = {},
  ) => {
    takeUp(gl, program);
    setUniforms(gl, program, numbers);
    gl.bindFramebuffer(gl.FRAMEBUFFER, target);
    drawAllPixels(gl);
  };

  const takeTurns = (count: number): void => {
    const { sample } = pending!;
    const { programs, tile, ofMeters, sums } = sample;
    const here = buffersFor(tile, sums);
    const { paths, ahead, light, depthAlone } = here;
    const units = unitsOf(sample);
    query ??= gl.createQuery();
    const lives = query;
    bindAll(sample.textures, units);
    gl.viewport(0, 0, tile.width, tile.height);
    gl.blendFunc(gl.ONE, gl.ONE);
    gl.enable(gl.DEPTH_TEST);
    gl.depthMask(false);
    gl.depthRange(DEPTH_DRAWN, DEPTH_DRAWN);
    for (let i = 0; i < count; i++) {
      const turn = pending!.turns++;
      const numbers = { turn: [turn], metSoFar: [Math.max(0, ofMeters ? turn - 1 : turn)] };
      const last = i === count - 1;
      bindAll(pathTextures(here, turn), units);
      if (last) gl.beginQuery(gl.ANY_SAMPLES_PASSED, lives);
      draw(programs.hit, ahead.framebuffer, numbers);
      if (last) gl.endQuery(gl.ANY_SAMPLES_PASSED);
      draw(programs.go, paths[(turn + 1) % 2]!.framebuffer, numbers);
      gl.enable(gl.BLEND);
      for (const program of programs.lights) draw(program, light.framebuffer, numbers);
      gl.disable(gl.BLEND);
      gl.depthMask(true);
      gl.depthRange(0, 0);
      draw(programs.ended, depthAlone);
      gl.depthMask(false);
      gl.depthRange(DEPTH_DRAWN, DEPTH_DRAWN);
      // The card begins with the turns that cost most while the others are still being asked for.
      if (turn === 0) gl.flush();
    }
    gl.depthMask(true);
    gl.depthRange(0, 1);
    gl.disable(gl.DEPTH_TEST);
  };

  const keep = ({ programs, before, making, tile, sums, uniforms }: WaveSample): void => {
    const { light } = buffersFor(tile, sums);
    const lights = Object.fromEntries(
      Array.from({ length: sums }, (_, i) => [`light${i}`, light.textures[i]!]),
    );
    takeUp(gl, programs.keep);
    bindTextures(gl, programs.keep, { ...before, ...lights });
    setUniforms(gl, programs.keep, uniforms);
    drawInto(gl, making);
    gl.enable(gl.SCISSOR_TEST);
    gl.scissor(tile.x, tile.y, tile.width, tile.height);
    drawAllPixels(gl);
    gl.disable(gl.SCISSOR_TEST);
  };

  return {
    begin(sample) {
      const { programs, uniforms, tile, sums } = sample;
      pending = { sample, turns: 0 };
      const { paths, light } = buffersFor(tile, sums);
      const units = unitsOf(sample);
      for (const program of passesOf(programs)) {
        takeUp(gl, program);
        setUniforms(gl, program, uniforms);
        for (const [name, unit] of units) {
          const location = program.uniforms.get(name);
          if (location) gl.uniform1i(location, unit);
        }
      }
      gl.bindFramebuffer(gl.FRAMEBUFFER, light.framebuffer);
      gl.clearColor(0, 0, 0, 0);
      gl.clear(gl.COLOR_BUFFER_BIT | gl.DEPTH_BUFFER_BIT);
      bindAll(sample.textures, units);
      gl.viewport(0, 0, tile.width, tile.height);
      draw(programs.start, paths[0].framebuffer);
      const passesATurn = passesOf(programs).length - 1;
      takeTurns(sample.hasty ? Math.max(TURNS, Math.floor(HASTY_PASSES / passesATurn)) : atOnce);
      if (!sample.hasty) return;
      keep(sample);
      pending = null;
    },
    keepOrGoOn() {
      if (!pending || !query) return true;
      if (!gl.getQueryParameter(query, gl.QUERY_RESULT_AVAILABLE)) return false;
      if (gl.getQueryParameter(query, gl.QUERY_RESULT)) {
        if (pending.turns < atOnce + TURNS) atOnce = Math.min(MOST_AT_ONCE, atOnce + LEARNT);
        takeTurns(TURNS);
        return false;
      }
      keep(pending.sample);
      pending = null;
      return true;
    },
    dispose() {
      if (buffers) deleteBuffers(gl, buffers);
      if (query) gl.deleteQuery(query);
      buffers = null;
      query = null;
      pending = null;
    },
  };
}

function newBuffers(gl: WebGL2RenderingContext, width: number, height: number, sums: number): Buffers {
  const depth = gl.createRenderbuffer();
  gl.bindRenderbuffer(gl.RENDERBUFFER, depth);
  gl.renderbufferStorage(gl.RENDERBUFFER, gl.DEPTH_COMPONENT24, width, height);
  const depthAlone = gl.createFramebuffer();
  gl.bindFramebuffer(gl.FRAMEBUFFER, depthAlone);
  gl.framebufferRenderbuffer(gl.FRAMEBUFFER, gl.DEPTH_ATTACHMENT, gl.RENDERBUFFER, depth);
  gl.drawBuffers([gl.NONE]);
  const target = (outputs: number) => newFloatTarget(gl, width, height, outputs, depth);
  const paths = () => target(PATH_SAMPLERS.length);
  return {
    width,
    height,
    sums,
    depth,
    depthAlone,
    paths: [paths(), paths()],
    ahead: target(AHEAD_SAMPLERS.length),
    light: target(sums),
  };
}

function deleteBuffers(
  gl: WebGL2RenderingContext,
  { depth, depthAlone, paths, ahead, light }: Buffers,
): void {
  for (const target of [...paths, ahead, light]) deleteFloatTarget(gl, target);
  gl.deleteFramebuffer(depthAlone);
  gl.deleteRenderbuffer(depth);
}
