import type { z } from 'zod';
import { DICTIONARIES, sceneDocument } from '../schema/document.ts';
import { nearestName } from './nearest-name.ts';
import { MAX_PROBLEMS, type Path, type Problem, problemAt, shown, valueAt } from './problem.ts';

/**
 * Everything about a raw document that the schema refuses, in our words: where, what was found, what was expected and
 * the nearest known name. Of a file that is something else, the first MAX_PROBLEMS.
 */
export function schemaProblems(raw: unknown): Problem[] {
  const result = sceneDocument.safeParse(raw);
  const issues = result.success ? [] : result.error.issues.slice(0, MAX_PROBLEMS);
  return [...issues.flatMap((issue) => problemsOfIssue(issue, raw)), ...passedOver(raw)];
}

/** The one name that the schema library passes over in silence. */
function passedOver(raw: unknown): Problem[] {
  return DICTIONARIES.map((dictionary) => [dictionary, '__proto__'])
    .filter((at) => valueAt(raw, at) !== undefined)
    .map((at) => problemAt(raw, at, { found: `the name ${shown(at[1])}`, expected: KEBAB }));
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
      return issue.keys
        .slice(0, MAX_PROBLEMS)
        .map((key) =>
          problem(`an unknown field ${shown(key)}`, `only ${known.join(', ')}`, nearestName(key, known), [
            ...path,
            key,
          ]),
        );
    }
    case 'invalid_type':
      return [problem(shown(value), expectedType(issue.expected, path, schemaAt(sceneDocument, path, raw)))];
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
    case 'too_big': {
      const numbers = tupleLength(schemaAt(sceneDocument, path, raw));
      return [problem(shown(value), numbers ? `${numbers} numbers` : bound(issue, path, value))];
    }
    case 'invalid_format': {
      const expected = expectedFormat(path, issue);
      return [problem(shown(value), expected, expected === KEBAB ? kebabOf(value) : undefined)];
    }
    case 'invalid_key':
      return [problem(`the name ${shown(path.at(-1))}`, KEBAB, kebabOf(path.at(-1)))];
    case 'custom':
      return [problem(shown(value), issue.message)];
    default:
      return [problem(shown(value), issue.message)];
  }
}

const KEBAB = 'a name in small letters, digits and single hyphens, such as "key-1"';

/** A name as it would have been right, for one that was typed as a title. */
function kebabOf(value: unknown): string | undefined {
  if (typeof value !== 'string' || value.length > 64) return undefined;
  const words = value.toLowerCase().match(/[a-z0-9]+/g);
  return words?.join('-');
}

function expectedType(type: string, path: Path, schema: Schema | undefined): string {
  const words: Record<string, string> = {
    object: 'an object {…}',
    record: 'an object {…}',
    array: 'a list […]',
    tuple: `a list of ${tupleLength(schema) ?? ''} numbers […]`,
    string: TEXTS.includes(String(path.at(-1))) ? 'text in quotes' : 'a name in quotes',
    number: `a finite number${unitOf(path) && ` in ${unitOf(path)}`}`,
    int: 'a whole number',
    boolean: 'true or false',
  };
  return words[type] ?? `a ${type}`;
}

const TEXTS = ['title', 'notes', 'name', 'text', 'file', 'start'];

function tupleLength(schema: Schema | undefined): number | undefined {
  const def = schema && definition(schema);
  return def?.type === 'tuple' ? def.items?.length : undefined;
}

function oneOf(values: readonly string[]): string {
  return values.length === 1 ? `${values[0]}` : `one of ${values.join(', ')}`;
}

type BoundIssue = Extract<Issue, { code: 'too_small' | 'too_big' }>;

function bound(issue: BoundIssue, path: Path, value: unknown): string {
  const [limit, inclusive, exclusive] =
    issue.code === 'too_small'
      ? [issue.minimum, 'at least', 'more than']
      : [issue.maximum, 'at most', 'less than'];
  const words = `${issue.inclusive === false ? exclusive : inclusive} ${limit}`;
  if (issue.origin === 'string') return `${words} characters`;
  if (issue.origin === 'array') return `${words} ${limit === 1 ? 'entry' : 'entries'}`;
  const percent = issue.code === 'too_big' && limit === 1 && Number(value) <= 100;
  const unit = unitOf(path);
  return `${words}${unit && (unit === '°' ? unit : ` ${unit}`)}${percent ? ` (${value} % is ${Number(value) / 100})` : ''}`;
}

const UNITS: Readonly<Record<string, string>> = { deg: '°', mm2: 'mm²', m2: 'm²', min: 'minutes' };

/** The unit that a field's name ends with, as a person writes it. */
function unitOf(path: Path): string {
  const field = path.findLast((step) => typeof step === 'string') ?? '';
  const [, unit] = /_([a-z0-9]+)$/i.exec(String(field)) ?? [];
  return unit === undefined ? '' : (UNITS[unit] ?? unit);
}

function expectedFormat(path: Path, issue: { format: string }): string {
  if (issue.format === 'datetime') return 'a date and time with its offset, such as "2027-03-04T20:00:00Z"';
  switch (path.at(-1)) {
    case 'facing':
      return '"camera", "lamp:<id of a lamp>" or a direction [x, y, z]';
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
