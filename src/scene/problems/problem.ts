/** One thing wrong with a document, said so that a person can find it and mend it. */
export interface Problem {
  /** An error stops the work; a warning is printed and the work goes on. */
  readonly severity: 'error' | 'warning';
  /** Where: `lamps[2].aim_m[1]`, with the id of the thing in `thing` when it has one. `at` is the same, step by step. */
  readonly path: string;
  readonly at: Path;
  readonly thing?: string;
  /** Line in the file, from 1, where the text is at hand. */
  readonly line?: number;
  readonly found: string;
  readonly expected: string;
  /** The nearest name that would have been right. */
  readonly nearest?: string;
}

export type Path = readonly (string | number)[];

/** A problem at a place in a raw document. */
export function problemAt(
  raw: unknown,
  at: Path,
  words: { found: string; expected: string; nearest?: string | undefined; severity?: 'error' | 'warning' },
): Problem {
  const thing = valueAt(raw, [...at.slice(0, 2), 'id']);
  return {
    severity: words.severity ?? 'error',
    path: pathText(at),
    at,
    ...(typeof thing === 'string' && thing.length <= 64 ? { thing } : {}),
    found: words.found,
    expected: words.expected,
    ...(words.nearest === undefined ? {} : { nearest: words.nearest }),
  };
}

/** What stands at a path of a raw document, whatever its shape; inherited properties are not data. */
export function valueAt(raw: unknown, path: Path): unknown {
  let value = raw;
  for (const step of path) {
    if (typeof value !== 'object' || value === null || !Object.hasOwn(value, step)) return undefined;
    value = (value as Record<string | number, unknown>)[step];
  }
  return value;
}

/** `['lamps', 2, 'aim_m', 1]` → `lamps[2].aim_m[1]`; the document itself is `(document)`. */
export function pathText(path: Path): string {
  if (path.length === 0) return '(document)';
  return path.reduce<string>((text, step) => {
    if (typeof step === 'number') return `${text}[${step}]`;
    const key = /^[\w-]+$/.test(step) ? step : JSON.stringify(step.slice(0, 60));
    return text ? `${text}.${key}` : key;
  }, '');
}

/** `scene.json:12: lamps[0].head (key): found "bgi"; expected a head; did you mean "big"?` */
export function problemText(problem: Problem, fileName?: string): string {
  const place = [fileName, problem.line].filter((p) => p !== undefined).join(':');
  const thing = problem.thing ? ` (${problem.thing})` : '';
  const nearest = problem.nearest ? `; did you mean "${problem.nearest}"?` : '';
  const where = `${place ? `${place}: ` : ''}${problem.path}${thing}`;
  return `${where}: found ${problem.found}; expected ${problem.expected}${nearest}`;
}

/** A value from the file as a short, printable text. Control characters are escaped by JSON, length is cut. */
export function shown(value: unknown): string {
  if (value === undefined) return 'nothing';
  if (typeof value === 'number') return String(value);
  if (Array.isArray(value))
    return value.length > 6 ? `a list of ${value.length}` : cut(JSON.stringify(value));
  if (typeof value === 'object' && value !== null) {
    const keys = Object.keys(value);
    return keys.length > 0 ? `an object with ${cut(keys.slice(0, 4).join(', '))}` : 'an empty object';
  }
  return cut(JSON.stringify(value));
}

function cut(text: string): string {
  return text.length > 60 ? `${text.slice(0, 57)}…` : text;
}

/** Thrown where work cannot go on: carries every error at once. */
export class SceneError extends Error {
  readonly problems: readonly Problem[];

  constructor(problems: readonly Problem[]) {
    super(problems.map((p) => problemText(p)).join('\n'));
    this.name = 'SceneError';
    this.problems = problems;
  }
}
