import { type Program, startProgram, type UnfinishedProgram } from '../gl/program.ts';
import type { Chunk } from '../shaders/chunk.ts';

/** Programs by name, built once, each while others draw. All are gone when the context is. */
export interface Programs {
  /** A program once the driver has built it; starts building one that is new. @throws ShaderError */
  ready(name: string, chunk: () => Chunk): Program | null;
  /** The same for one that is small: waits for the driver. @throws ShaderError */
  now(name: string, chunk: () => Chunk): Program;
  dispose(): void;
}

export function newPrograms(gl: WebGL2RenderingContext): Programs {
  const known = new Map<string, Program | UnfinishedProgram>();
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
    ready(name, chunk) {
      const program = started(name, chunk);
      if (!('finish' in program)) return program;
      return program.isBuilt() ? finished(name, program) : null;
    },
    now(name, chunk) {
      const program = started(name, chunk);
      return 'finish' in program ? finished(name, program) : program;
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
