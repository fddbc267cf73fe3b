import {
  createScanner,
  findNodeAtLocation,
  type Node,
  type ParseError,
  parseTree,
  printParseErrorCode,
} from 'jsonc-parser';
import { type Path, type Problem, problemAt, shown } from '../problems/problem.ts';

/** Larger than any real scene with its photometric files inside; refused before parsing. */
export const MAX_SCENE_BYTES = 20_000_000;
/** Deeper than any real scene (a window run in a solid is 5 deep); refused so that no recursion can overflow. */
const MAX_DEPTH = 40;
/** Names, values, brackets, commas and colons; 20 000 solids have under a million of them. */
const MAX_TOKENS = 2_000_000;

/**
 * JSON text to a value. Says line and column of what is wrong, and refuses what JSON.parse would swallow in silence:
 * a name used twice in one object. NaN, Infinity, comments and trailing commas are not JSON and are refused.
 */
export function parseJson(
  text: string,
): { readonly raw: unknown } | { readonly problems: readonly Problem[] } {
  if (text.length > MAX_SCENE_BYTES) {
    return {
      problems: [
        problemAt(undefined, [], {
          found: `${(text.length / 1e6).toFixed(1)} million characters`,
          expected: `a scene of at most ${MAX_SCENE_BYTES / 1e6} MB (leave meshes and photometric files beside it)`,
        }),
      ],
    };
  }
  const plain = text.charCodeAt(0) === 0xfeff ? text.slice(1) : text;
  if (plain.trim() === '') {
    return {
      problems: [
        problemAt(undefined, [], { found: 'an empty file', expected: 'a scene, {"keyfall": 1, …}' }),
      ],
    };
  }
  const structural = structuralProblems(plain);
  if (structural.length > 0) return { problems: structural };
  try {
    return { raw: JSON.parse(plain) };
  } catch {
    return { problems: [syntaxProblem(plain)] };
  }
}

/** The same problems with the line in the text where each stands. Only for text that parses. */
export function withLines(problems: readonly Problem[], text: string): Problem[] {
  const tree = parseTree(text);
  if (!tree) return [...problems];
  return problems.map((problem) => {
    const node = nearestNode(tree, problem.at);
    return { ...problem, line: lineOf(text, node.offset) };
  });
}

/** The node at a path, or the innermost one that exists: an absent field is shown at the thing that lacks it. */
function nearestNode(tree: Node, at: Path): Node {
  for (let n = at.length; n > 0; n--) {
    const node = findNodeAtLocation(tree, [...at.slice(0, n)]);
    if (node) return node.parent?.type === 'property' ? node.parent : node;
  }
  return tree;
}

function lineOf(text: string, offset: number): number {
  let line = 1;
  for (let i = text.indexOf('\n'); i >= 0 && i < offset; i = text.indexOf('\n', i + 1)) line++;
  return line;
}

// Token kinds of the scanner, by number because the library declares them as an ambient const enum.
const OPEN_BRACE = 1;
const CLOSE_BRACE = 2;
const OPEN_BRACKET = 3;
const CLOSE_BRACKET = 4;
const COLON = 6;
const STRING = 10;
const END = 17;

function structuralProblems(text: string): Problem[] {
  const scanner = createScanner(text, true);
  const open: (Set<string> | null)[] = [];
  const problems: Problem[] = [];
  let lastString = '';
  let lastOffset = 0;
  let tokens = 0;
  for (let token = scanner.scan() as number; token !== END && problems.length < 100; token = scanner.scan()) {
    if (++tokens > MAX_TOKENS) {
      const found = `more than ${MAX_TOKENS / 1e6} million names, values and brackets`;
      return [problemAt(undefined, [], { found, expected: 'a scene, which needs fewer' })];
    }
    if (token === OPEN_BRACE || token === OPEN_BRACKET) {
      open.push(token === OPEN_BRACE ? new Set() : null);
      if (open.length > MAX_DEPTH) {
        const found = `more than ${MAX_DEPTH} brackets inside each other`;
        const line = lineOf(text, scanner.getTokenOffset());
        return [{ ...problemAt(undefined, [], { found, expected: 'a scene, which needs fewer' }), line }];
      }
    } else if (token === CLOSE_BRACE || token === CLOSE_BRACKET) {
      open.pop();
    } else if (token === STRING) {
      lastString = scanner.getTokenValue();
      lastOffset = scanner.getTokenOffset();
    } else if (token === COLON) {
      const names = open.at(-1);
      if (names?.has(lastString)) {
        problems.push({
          ...problemAt(undefined, [lastString], {
            found: `the name ${shown(lastString)} twice in one object`,
            expected: 'each name once (only the last would count)',
          }),
          line: lineOf(text, lastOffset),
        });
      }
      names?.add(lastString);
    }
  }
  return problems;
}

const MENDS: Readonly<Record<string, string>> = {
  InvalidSymbol: 'a number, text in quotes, true, false, null, {…} or […] (NaN and Infinity are not JSON)',
  InvalidNumberFormat: 'a number such as 1.5',
  UnexpectedEndOfNumber: 'digits after the point or the e, as in 1.5',
  PropertyNameExpected: 'a field name in double quotes (no comma after the last field)',
  ValueExpected: 'a value (no comma after the last entry)',
  ColonExpected: 'a colon between name and value',
  CommaExpected: 'a comma between entries',
  CloseBraceExpected: 'a closing }',
  CloseBracketExpected: 'a closing ]',
  EndOfFileExpected: 'nothing more after the scene',
  InvalidCommentToken: 'no comments (use "notes")',
  UnexpectedEndOfComment: 'no comments (use "notes")',
  UnexpectedEndOfString: 'a closing quote',
  InvalidUnicode: 'four hexadecimal digits after \\u',
  InvalidEscapeCharacter: 'a backslash only before " \\ / b f n r t or u',
  InvalidCharacter: 'text without raw control characters',
};

function syntaxProblem(text: string): Problem {
  const errors: ParseError[] = [];
  parseTree(text, errors, { disallowComments: true, allowTrailingComma: false });
  const first = errors[0];
  if (!first)
    return problemAt(undefined, [], { found: 'text that is not JSON', expected: 'a scene in JSON' });
  const line = lineOf(text, first.offset);
  const column = first.offset - text.lastIndexOf('\n', first.offset - 1);
  const near = text.slice(first.offset, first.offset + 20).split('\n')[0] ?? '';
  return {
    ...problemAt(undefined, [], {
      found: near ? `${shown(near)} in column ${column}` : 'the end of the file',
      expected: MENDS[printParseErrorCode(first.error)] ?? 'JSON',
    }),
    line,
  };
}
