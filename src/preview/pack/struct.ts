import type { Vec3 } from '../../core/math/vec3.ts';

/**
 * How a GLSL struct lies in texels. Written down once as a list of fields, from which the writing and reading in
 * TypeScript and the reading in GLSL are all made, so that they cannot come to differ. A field never straddles two texels.
 */
export interface Struct<F extends Fields = Fields> {
  /** As the struct is called in GLSL. */
  readonly name: string;
  /** In the order of the struct in GLSL. */
  readonly fields: F;
  readonly texelCount: number;
  /** Where each number, vector or truth stands, those of structs within included, in the order of the fields. */
  readonly places: readonly Place[];
}

export type Simple = 'float' | 'int' | 'bool' | 'vec2' | 'vec3' | 'vec4';

export interface Fields {
  readonly [field: string]: Simple | Struct;
}

interface Place {
  readonly path: readonly string[];
  readonly type: Simple;
  readonly texel: number;
  readonly component: number;
}

/** What a struct holds, in TypeScript. */
export type Values<F extends Fields> = { readonly [K in keyof F]: ValueOf<F[K]> };

type ValueOf<T> =
  T extends Struct<infer F>
    ? Values<F>
    : T extends 'float' | 'int'
      ? number
      : T extends 'bool'
        ? boolean
        : T extends 'vec2'
          ? readonly [number, number]
          : T extends 'vec3'
            ? Vec3
            : readonly [number, number, number, number];

const SIZES: Readonly<Record<Simple, number>> = { float: 1, int: 1, bool: 1, vec2: 2, vec3: 3, vec4: 4 };
const COMPONENTS = 'xyzw';
/** Floats hold every whole number up to here. */
export const LARGEST_INT = 2 ** 24;

/** Lays out a struct: each field in the first texel that has room for it. */
export function struct<const F extends Fields>(name: string, fields: F): Struct<F> {
  const taken: number[] = [];
  const places = simpleFields(fields, []).map(({ path, type }): Place => {
    const found = taken.findIndex((used) => used + SIZES[type] <= 4);
    const texel = found < 0 ? taken.push(0) - 1 : found;
    const component = taken[texel]!;
    taken[texel] = component + SIZES[type];
    return { path, type, texel, component };
  });
  return { name, fields, texelCount: taken.length, places };
}

function simpleFields(fields: Fields, within: readonly string[]): Pick<Place, 'path' | 'type'>[] {
  return Object.entries(fields).flatMap(([field, type]) => {
    const path = [...within, field];
    return typeof type === 'string' ? [{ path, type }] : simpleFields(type.fields, path);
  });
}

/** Writes a struct from a texel on. @throws RangeError for a whole number that a float cannot hold. */
export function writeStruct<F extends Fields>(
  { places, name }: Struct<F>,
  values: Values<F>,
  data: Float32Array,
  texel: number,
): void {
  for (const { path, type, texel: offset, component } of places) {
    const value = path.reduce<unknown>((inner, field) => (inner as Record<string, unknown>)[field], values);
    const at = 4 * (texel + offset) + component;
    if (type === 'int') checkInt(value as number, `${name}.${path.join('.')}`);
    if (typeof value === 'object') data.set(value as ArrayLike<number>, at);
    else data[at] = Number(value);
  }
}

/** A whole number as it goes into a float. @throws RangeError where it would not come out again. */
export function checkInt(value: number, what: string): number {
  if (Number.isInteger(value) && Math.abs(value) <= LARGEST_INT) return value;
  throw new RangeError(`${what} is ${value}: a texture holds whole numbers up to ${LARGEST_INT}.`);
}

/** The values of a struct from a texel on. */
export function readStruct<F extends Fields>(of: Struct<F>, data: Float32Array, texel: number): Values<F> {
  const values: Record<string, unknown> = {};
  for (const { path, type, texel: offset, component } of of.places) {
    const at = 4 * (texel + offset) + component;
    const numbers = Array.from(data.subarray(at, at + SIZES[type]));
    const value = type === 'bool' ? numbers[0]! > 0.5 : numbers.length === 1 ? numbers[0] : numbers;
    let inner = values;
    for (const field of path.slice(0, -1)) {
      inner[field] ??= {};
      inner = inner[field] as Record<string, unknown>;
    }
    inner[path.at(-1)!] = value;
  }
  return values as Values<F>;
}

/** The GLSL of a struct whose inner structs are defined before it. */
export function glslStruct({ name, fields }: Struct): string {
  const lines = Object.entries(fields).map(
    ([field, type]) => `  ${typeof type === 'string' ? type : type.name} ${field};\n`,
  );
  return `struct ${name} {\n${lines.join('')}};\n`;
}

/** A GLSL function from the number of a texel to the struct that begins there; `texelOf` fetches one. */
export function glslReader(of: Struct, functionName: string, texelOf: string): string {
  const fetches = Array.from({ length: of.texelCount }, (_, i) => `  vec4 t${i} = ${texelOf}(at + ${i});\n`);
  return `${of.name} ${functionName}(int at) {\n${fetches.join('')}  return ${constructed(of, of, [])};\n}\n`;
}

function constructed(whole: Struct, part: Struct, within: readonly string[]): string {
  const values = Object.entries(part.fields).map(([field, type]) => {
    const path = [...within, field];
    return typeof type === 'string' ? simpleValue(whole, path) : constructed(whole, type, path);
  });
  return `${part.name}(${values.join(', ')})`;
}

function simpleValue({ places }: Struct, path: readonly string[]): string {
  const { type, texel, component } = places.find((place) => place.path.join('.') === path.join('.'))!;
  const value = `t${texel}.${COMPONENTS.slice(component, component + SIZES[type])}`;
  if (type === 'int') return `int(${value})`;
  return type === 'bool' ? `${value} > 0.5` : value;
}
