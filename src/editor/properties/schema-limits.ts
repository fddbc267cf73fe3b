import { z } from 'zod';
import type { Path } from '../../scene/problems/problem.ts';
import { sceneDocument } from '../../scene/schema/document.ts';
import { isEntry, isListed, type SubjectKind } from './subject.ts';

/** What the schema lets a field hold. Bounds that are left out are none; exclusive ones lie outside the range. */
export interface Limits {
  readonly least?: number;
  readonly most?: number;
  readonly above?: number;
  readonly below?: number;
  readonly whole: boolean;
  readonly optional: boolean;
  /** The values of a choice, in the schema's order. */
  readonly choices: readonly (string | number)[];
  /** The most letters of a text, the most entries of a list. */
  readonly longest?: number;
  readonly shortest?: number;
}

/** The schema of one kind of thing. */
export function schemaOfKind(kind: SubjectKind): z.ZodType {
  if (kind === 'document') return sceneDocument;
  const field = unwrapped(sceneDocument.shape[kind === 'keepOut' ? 'site' : kind] as z.ZodType);
  if (kind === 'keepOut') {
    const areas = unwrapped((field as z.ZodObject).shape.keepOut as z.ZodType);
    return unwrapped((areas as z.ZodArray).element as z.ZodType);
  }
  if (isListed(kind)) return unwrapped((field as z.ZodArray).element as z.ZodType);
  if (isEntry(kind)) {
    return unwrapped((field as z.ZodRecord).valueType as z.ZodType);
  }
  return field;
}

/** The schema at a path, of the variant that holds it where there are several; undefined where there is none. */
export function schemaAtPath(root: z.ZodType, path: Path): z.ZodType | undefined {
  const [step, ...rest] = path;
  const schema = unwrapped(root);
  if (step === undefined) return root;
  if (schema instanceof z.ZodObject) {
    const field = schema.shape[step as string] as z.ZodType | undefined;
    return field && schemaAtPath(field, rest);
  }
  if (schema instanceof z.ZodArray) return schemaAtPath(schema.element as z.ZodType, rest);
  if (schema instanceof z.ZodTuple) {
    const items = schema.def.items as readonly z.ZodType[];
    const item = items[typeof step === 'number' ? step : 0];
    return item && schemaAtPath(item, rest);
  }
  if (schema instanceof z.ZodUnion) {
    for (const option of schema.options as readonly z.ZodType[]) {
      const found = schemaAtPath(option, path);
      if (found) return found;
    }
  }
  return undefined;
}

const known = new Map<string, Limits | undefined>();

/** The limits of a field of a kind of thing; steps into lists may be any number. Undefined where there is no such field. */
export function limitsOf(kind: SubjectKind, path: Path): Limits | undefined {
  const key = `${kind} ${path.map((step) => (typeof step === 'number' ? '*' : step)).join(' ')}`;
  if (!known.has(key)) {
    const schema = schemaAtPath(schemaOfKind(kind), path);
    known.set(key, schema && limitsIn(schema));
  }
  return known.get(key);
}

interface Check {
  readonly check: string;
  readonly value?: number;
  readonly inclusive?: boolean;
  readonly minimum?: number;
  readonly maximum?: number;
}

function limitsIn(schema: z.ZodType): Limits {
  const inner = unwrapped(schema);
  const limits: { -readonly [K in keyof Limits]: Limits[K] } = {
    whole: inner instanceof z.ZodNumber && inner.isInt,
    optional: schema instanceof z.ZodOptional,
    choices: choicesIn(inner),
  };
  for (const { _zod } of inner.def.checks ?? []) {
    const { check, value, inclusive, minimum, maximum } = _zod.def as unknown as Check;
    if (check === 'greater_than' && value !== undefined) limits[inclusive ? 'least' : 'above'] = value;
    if (check === 'less_than' && value !== undefined) limits[inclusive ? 'most' : 'below'] = value;
    if (check === 'min_length' && minimum !== undefined) limits.shortest = minimum;
    if (check === 'max_length' && maximum !== undefined) limits.longest = maximum;
  }
  return limits;
}

function choicesIn(schema: z.ZodType): readonly (string | number)[] {
  if (schema instanceof z.ZodEnum) return schema.options as readonly (string | number)[];
  if (schema instanceof z.ZodLiteral) return [...(schema.values as Set<string | number>)];
  if (schema instanceof z.ZodUnion) {
    return (schema.options as readonly z.ZodType[]).flatMap((option) =>
      option instanceof z.ZodLiteral ? choicesIn(option) : [],
    );
  }
  return [];
}

export function unwrapped(schema: z.ZodType): z.ZodType {
  return schema instanceof z.ZodOptional ? unwrapped(schema.unwrap() as z.ZodType) : schema;
}

/** Why a number may not stand in a field, in words with its quantity's text; undefined where it may. */
export function outsideLimits(
  limits: Limits,
  value: number,
  text: (value: number) => string,
): string | undefined {
  const { least, most, above, below, whole } = limits;
  if (least !== undefined && value < least) return `at least ${text(least)}`;
  if (most !== undefined && value > most) return `at most ${text(most)}`;
  if (above !== undefined && value <= above) return `more than ${text(above)}`;
  if (below !== undefined && value >= below) return `less than ${text(below)}`;
  if (whole && !Number.isInteger(value)) return 'a whole number';
  return undefined;
}
