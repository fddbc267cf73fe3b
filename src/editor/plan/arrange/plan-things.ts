import type { Vec3 } from '../../../core/math/vec3.ts';
import type { SceneDocument } from '../../../scene/schema/document.ts';

/** The kinds of things that stand on the plan, in the order in which Tab goes through them. */
export const THING_KINDS = [
  'lamps',
  'marks',
  'figures',
  'cameras',
  'solids',
  'paths',
  'keepOut',
  'haze',
] as const;
export type ThingKind = (typeof THING_KINDS)[number];

/** For the list of kinds, and of one thing for a voice. */
export const KIND_WORDS: Readonly<Record<ThingKind, { readonly many: string; readonly one: string }>> = {
  lamps: { many: 'Lamps', one: 'lamp' },
  marks: { many: 'Marks', one: 'mark' },
  figures: { many: 'Figures', one: 'figure' },
  cameras: { many: 'Cameras', one: 'camera' },
  solids: { many: 'Solids and vehicles', one: 'solid' },
  paths: { many: 'Paths', one: 'path' },
  keepOut: { many: 'Keep-out areas', one: 'keep-out area' },
  haze: { many: 'Haze boxes', one: 'haze box' },
};

/** Something that stands somewhere and can be moved. */
export interface PlanThing {
  readonly id: string;
  readonly kind: ThingKind;
  readonly name: string;
  /** What it is placed by: its own position, the first point of a path, the middle of a keep-out area's corners. */
  readonly position_m: Vec3;
}

/** Haze boxes have no ids in the document; no id there has a space in it. */
export function hazeBoxId(index: number): string {
  return `haze ${index + 1}`;
}

const known = new WeakMap<SceneDocument, readonly PlanThing[]>();

/** Everything that stands on the plan; the same list for the same document. */
export function planThings(document: SceneDocument): readonly PlanThing[] {
  const things = known.get(document) ?? gathered(document);
  known.set(document, things);
  return things;
}

export function thingNamed(document: SceneDocument, id: string): PlanThing | undefined {
  return planThings(document).find((thing) => thing.id === id);
}

function gathered(document: SceneDocument): readonly PlanThing[] {
  const { lamps = [], marks = [], figures = [], cameras = [], solids = [], paths = [] } = document;
  const placed = (
    kind: ThingKind,
    list: readonly { id: string; name?: string | undefined; position_m: Vec3 }[],
  ) => list.map(({ id, name, position_m }): PlanThing => ({ id, kind, name: name ?? id, position_m }));
  return [
    ...placed('lamps', lamps),
    ...placed('marks', marks),
    ...placed('figures', figures),
    ...placed('cameras', cameras),
    ...placed('solids', solids),
    ...placed(
      'paths',
      paths.map(({ id, name, points }) => ({ id, name, position_m: points[0]!.position_m })),
    ),
    ...placed(
      'keepOut',
      (document.site?.keepOut ?? []).map(({ id, name, outline_m }) => ({
        id,
        name,
        position_m: [mean(outline_m.map(([x]) => x)), 0, mean(outline_m.map(([, z]) => z))] as Vec3,
      })),
    ),
    ...placed(
      'haze',
      (document.haze?.regions ?? []).map(({ name, position_m }, i) => ({
        id: hazeBoxId(i),
        name: name ?? `Haze box ${i + 1}`,
        position_m,
      })),
    ),
  ];
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
