import { describe, expect, it } from 'vitest';
import { changedSince, sceneAsTaken } from '../../../src/scene/readings/as-taken.ts';
import { frozen, fullScene } from '../../support/scenes.ts';

describe('the scene as a reading was taken in it', () => {
  const scene = frozen(fullScene());
  const [reading] = scene.readings!;

  it('has its lamps as they stood, and all else as it is', () => {
    const stood = sceneAsTaken(scene, reading!.taken!);
    const { lamp: _, ...back } = reading!.taken![0]!;
    expect(stood.lamps![0]).toEqual({ ...scene.lamps![0], ...back });
    expect(stood.lamps![1]).toEqual({ ...scene.lamps![1], level: 0.6 });
    for (const i of [2, 3, 4, 5]) expect(stood.lamps![i]).toBe(scene.lamps![i]);
    expect({ ...stood, lamps: [] }).toEqual({ ...scene, lamps: [] });
  });

  it('says what stands otherwise now; what has come back does not', () => {
    expect(changedSince(scene, reading!)).toEqual([
      { taken: reading!.taken![0], changed: ['position_m', 'aim_m', 'roll_deg', 'level', 'filters'] },
      { taken: reading!.taken![1], changed: ['level'] },
    ]);
    const back = { ...scene, lamps: scene.lamps!.with(1, { ...scene.lamps![1]!, level: 0.6 }) };
    expect(changedSince(back, reading!).map(({ taken }) => taken.lamp)).toEqual(['back']);
    expect(changedSince(scene, scene.readings![1]!)).toEqual([]);
  });
});
