import type { z } from 'zod';
import { sceneDocument } from '../schema/document.ts';
import { nearestName } from './nearest-name.ts';
import { type Path, type Problem, problemAt, shown, valueAt } from './problem.ts';

/**
 * Everything about a raw document that the schema refuses, in our words: where, what was found, what was expected and
 * the nearest known name.
 */
export function schemaProblems(raw: unknown): Problem[] {
  const result = sceneDocument.safeParse(raw);
  if (result.success) return [];
  return result.error.issues.flatMap((issue) => problemsOfIssue(issue, raw));
}

type Issue = z.core.$ZodIssue;

function problemsOfIssue(issue: Issue, raw: unknown): Problem[] {
  const path = issue.path.filter((step) => typeof step !== 'symbol') as Path;
  const value = valueAt(raw, path);
  const problem = (found: string, expected: string, nearest?: string, at: Path = path) =>
    problemAt(raw, at, { found, expected, nearest });

  switch (issue.code) {
    case 'unrecognized_keys': {
      const known = fieldsAt(sceneDocument, path, raw);
      return issue.keys.map((key) =>
        problem(`an unknown field ${shown(key)}`, `only ${known.join(', ')}`, nearestName(key, known), [
          ...path,
          key,
        ]),
      );
    }
    case 'invalid_type':
      return [problem(shown(value), expectedType(issue.expected))];
    case 'invalid_value': {
      const values = issue.values.map(String);
      return [
        problem(
          shown(value),
          `${oneOf(values)}`,
          typeof value === 'string' ? nearestName(value, values) : undefined,
        ),
      ];
    }
    case 'invalid_union': {
      const discriminator = (issue as { discriminator?: string }).discriminator;
      if (discriminator === undefined) return [problem(shown(value), issue.message)];
      const options = discriminatorOptions(sceneDocument, path, raw, discriminator);
      const given = valueAt(raw, path);
      const at = path.at(-1) === discriminator ? path : [...path, discriminator];
      const text = typeof given === 'string' ? given : undefined;
      return [
        problem(shown(valueAt(raw, at)), oneOf(options), text ? nearestName(text, options) : undefined, at),
      ];
    }
    case 'too_small':
      return [problem(shown(value), `${bound(issue, 'at least', issue.minimum)}`)];
    case 'too_big':
      return [problem(shown(value), `${bound(issue, 'at most', issue.maximum)}`)];
    case 'invalid_format':
      return [problem(shown(value), expectedFormat(path, issue))];
    case 'invalid_key':
      return [problem(`the name ${shown(path.at(-1))}`, KEBAB)];
    case 'custom':
      return [problem(shown(value), issue.message)];
    default:
      return [problem(shown(value), issue.message)];
  }
}

const KEBAB = 'a name in small letters, digits and single hyphens, such as "key-1"';

function expectedType(type: string): string {
  const words: Record<string, string> = {
    object: 'an object {…}',
    record: 'an object {…}',
    array: 'a list […]',
    tuple: 'a list of numbers […]',
    string: 'text in quotes',
    number: 'a finite number',
    int: 'a whole number',
    boolean: 'true or false',
  };
  return words[type] ?? `a ${type}`;
}

function oneOf(values: readonly string[]): string {
  return values.length === 1 ? `${values[0]}` : `one of ${values.join(', ')}`;
}

function bound(
  issue: { origin: string; inclusive?: boolean | undefined },
  words: string,
  limit: number | bigint,
): string {
  const strict = issue.inclusive === false ? (words === 'at least' ? 'more than' : 'less than') : words;
  if (issue.origin === 'string') return `${strict} ${limit} characters`;
  if (issue.origin === 'array') return `${strict} ${limit} entries`;
  return `${strict} ${limit}`;
}

function expectedFormat(path: Path, issue: { format: string }): string {
  if (issue.format === 'datetime') return 'a date and time with its offset, such as "2027-03-04T20:00:00Z"';
  switch (path.at(-1)) {
    case 'file':
      return 'the plain name of a file that stands beside the scene, without folders';
    case 'name':
    case 'title':
      return 'text without line breaks or control characters';
    case 'notes':
      return 'text without control characters';
    default:
      return KEBAB;
  }
}

// --- walking the schema beside the data, to say what was allowed at a path ------------------------------------------

type Schema = z.core.$ZodType;
interface Definition {
  readonly type: string;
  readonly shape?: Record<string, Schema>;
  readonly element?: Schema;
  readonly innerType?: Schema;
  readonly valueType?: Schema;
  readonly options?: readonly Schema[];
  readonly discriminator?: string;
  readonly items?: readonly Schema[];
  readonly values?: readonly unknown[];
}

function definition(schema: Schema): Definition {
  return schema._zod.def as unknown as Definition;
}

/** Fields allowed at a path; where the shape depends on a discriminator, those of the chosen shape. */
function fieldsAt(root: Schema, path: Path, raw: unknown): string[] {
  const schema = schemaAt(root, path, raw);
  const shape = schema && definition(schema).shape;
  return shape ? Object.keys(shape) : [];
}

function discriminatorOptions(root: Schema, path: Path, raw: unknown, discriminator: string): string[] {
  const at = path.at(-1) === discriminator ? path.slice(0, -1) : path;
  const union = schemaAt(root, at, raw, false);
  const options = (union && definition(union).options) ?? [];
  return options.flatMap((option) => literalsOf(definition(option).shape?.[discriminator]));
}

function literalsOf(schema: Schema | undefined): string[] {
  return schema ? (definition(schema).values ?? []).map(String) : [];
}

function schemaAt(root: Schema, path: Path, raw: unknown, chooseLast = true): Schema | undefined {
  let schema: Schema | undefined = root;
  let value = raw;
  for (const step of path) {
    schema = schema && choose(unwrapped(schema), value);
    if (!schema) return undefined;
    const def: Definition = definition(schema);
    schema = def.shape?.[step] ?? def.element ?? def.valueType ?? def.items?.[Number(step)];
    value = valueAt(value, [step]);
  }
  if (!schema) return undefined;
  return chooseLast ? choose(unwrapped(schema), value) : unwrapped(schema);
}

function unwrapped(schema: Schema): Schema {
  const def = definition(schema);
  return def.innerType ? unwrapped(def.innerType) : schema;
}

/** The member of a discriminated union that the data asks for. */
function choose(schema: Schema, value: unknown): Schema | undefined {
  const { options, discriminator } = definition(schema);
  if (!options || !discriminator) return schema;
  const kind = valueAt(value, [discriminator]);
  return options.find((option) =>
    literalsOf(definition(option).shape?.[discriminator]).includes(String(kind)),
  );
}
