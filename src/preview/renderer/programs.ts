import { type Program, startProgram, type UnfinishedProgram } from '../gl/program.ts';
import type { Chunk } from '../shaders/chunk.ts';

/** Programs by name, built once, each while others draw. All are gone when the context is. */
export interface Programs {
  /** Starts building a program that is new; whether `ready` would have it without waiting for the driver. */
  isBuilt(name: string, chunk: () => Chunk): boolean;
  /** A program once the driver has built it; starts building one that is new. @throws ShaderError */
  ready(name: string, chunk: () => Chunk): Program | null;
  /** The same for one that is small: waits for the driver. @throws ShaderError */
  now(name: string, chunk: () => Chunk): Program;
  /** The page has had its turn: a driver that builds only while it is waited for may be waited for once more. */
  nextTurn(): void;
  dispose(): void;
}

export function newPrograms(gl: WebGL2RenderingContext): Programs {
  const known = new Map<string, Program | UnfinishedProgram>();
  const sideBySide = gl.getExtension('KHR_parallel_shader_compile') !== null;
  let waited = false;
  const started = (name: string, chunk: () => Chunk) => {
    const program = known.get(name) ?? startProgram(gl, chunk());
    known.set(name, program);
    return program;
  };
  const finished = (name: string, program: UnfinishedProgram): Program => {
    const built = program.finish();
    known.set(name, built);
    return built;
  };
  return {
    isBuilt(name, chunk) {
      const program = started(name, chunk);
      return !('finish' in program) || program.isBuilt();
    },
    ready(name, chunk) {
      const program = started(name, chunk);
      if (!('finish' in program)) return program;
      if (waited || !program.isBuilt()) return null;
      waited = !sideBySide;
      return finished(name, program);
    },
    now(name, chunk) {
      const program = started(name, chunk);
      return 'finish' in program ? finished(name, program) : program;
    },
    nextTurn() {
      waited = false;
    },
    dispose() {
      for (const program of known.values()) {
        if ('finish' in program) program.discard();
        else gl.deleteProgram(program.handle);
      }
      known.clear();
    },
  };
}
