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

/** At most so many problems are put into words: past that, the file is something else. */
export const MAX_PROBLEMS = 200;

const PLAIN_WORD = /^[\w-]+$/;

/** A problem at a place in a raw document. */
export function problemAt(
  raw: unknown,
  at: Path,
  words: { found: string; expected: string; nearest?: string | undefined; severity?: 'error' | 'warning' },
): Problem {
  const thing = valueAt(raw, [...at.slice(0, 2), 'id']);
  const isId = typeof thing === 'string' && thing.length <= 64 && PLAIN_WORD.test(thing);
  return {
    severity: words.severity ?? 'error',
    path: pathText(at),
    at,
    ...(isId ? { thing } : {}),
    found: printable(words.found),
    expected: printable(words.expected),
    ...(words.nearest === undefined ? {} : { nearest: printable(words.nearest) }),
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
    const key = PLAIN_WORD.test(step) ? step : printable(JSON.stringify(step.slice(0, 60)));
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

/** Text that cannot drive a terminal, whatever file it came from: control characters become `\u001b`. */
function printable(text: string): string {
  return text.replace(
    /[\p{Cc}\u2028\u2029]/gu,
    (character) => `\\u${character.charCodeAt(0).toString(16).padStart(4, '0')}`,
  );
}

/** A value from the file as a short text. */
export function shown(value: unknown): string {
  if (value === undefined) return 'nothing';
  if (typeof value === 'number') return String(value);
  if (typeof value === 'string') return JSON.stringify(value.length > 57 ? `${value.slice(0, 56)}…` : value);
  if (Array.isArray(value))
    return value.length > 6 ? `a list of ${value.length}` : cut(JSON.stringify(value));
  if (typeof value === 'object' && value !== null) {
    const keys = Object.keys(value);
    if (keys.length === 0) return 'an empty object';
    const plain = keys.length <= 4 && Object.values(value).every((v) => typeof v !== 'object');
    const some = keys.slice(0, 4).map((key) => JSON.stringify(key));
    return plain ? cut(JSON.stringify(value)) : `an object with ${cut(some.join(', '))}`;
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
