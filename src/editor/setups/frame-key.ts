import type { SceneDocument } from '../../scene/schema/document.ts';
import type { Scene } from '../store/editor-state.ts';
import type { LightShown } from './small-frame-desk.ts';

/** What a small frame was drawn of. Edits share what they do not touch, so parts are compared as objects. */
export type FrameKey = readonly unknown[];

/** Words, other setups and what stands for the meter and the mains throw no light. */
const DARK: readonly (keyof SceneDocument)[] = [
  'title',
  'notes',
  'setups',
  'marks',
  'supplies',
  'cameras',
  'readings',
];

const NOTHING: object = {};

/** Everything that the frame of a setup, by a camera, depends on. */
export function frameKey(
  { document, beside }: Scene,
  setup: string | undefined,
  camera: string | undefined,
): FrameKey {
  const cameras = document.cameras ?? [];
  const parts = Object.entries(document).filter(([key]) => !DARK.includes(key as keyof SceneDocument));
  // Readings correct lamps and haze, by the marks and the first camera that they were taken with.
  const corrected = document.readings?.length ? [document.readings, document.marks, cameras[0]] : [];
  return [
    beside,
    cameras.find(({ id }) => id === camera),
    document.setups?.find(({ id }) => id === setup)?.changes ?? NOTHING,
    ...corrected,
    ...parts.flat(),
  ];
}

/** Everything that the readings in a setup, by a camera, depend on. */
export function readingKey(scene: Scene, setup: string | undefined, camera: string | undefined): FrameKey {
  return [...frameKey(scene, setup, camera), scene.document.marks];
}

export function sameKey(one: FrameKey, other: FrameKey): boolean {
  return one.length === other.length && one.every((part, i) => part === other[i]);
}

/** Where a small frame hangs: one a setup and light. No id has a space in it. */
export function slotOf(setup: string | undefined, light: LightShown): string {
  return `${setup ?? ''} ${light.kind === 'lamp' ? light.id : ` ${light.kind}`}`;
}

/** Where the readings in a setup are kept: nowhere that a small frame hangs. */
export function readingSlot(setup: string | undefined): string {
  return `${setup ?? ''}  readings`;
}
