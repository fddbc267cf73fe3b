import { describe, expect, it } from 'vitest';
import { sceneWarnings } from '../../../src/scene/compile/scene-warnings.ts';
import { problemText } from '../../../src/scene/problems/problem.ts';
import { edited, opened, smallScene } from '../../support/scenes.ts';

const FILES = { photometry: new Map(), meshes: new Map() };

function warnings(changes: Record<string, unknown>): string[] {
  const problems = sceneWarnings(opened(edited(smallScene(), changes)), FILES);
  expect(problems.every((p) => p.severity === 'warning')).toBe(true);
  return problems.map((p) => problemText(p));
}

const crate = {
  id: 'crate',
  name: 'Crate',
  shape: 'box',
  position_m: [5, 1, 0],
  material: 'concrete',
  size_m: [2, 2, 2],
};

describe('slips that are no errors', () => {
  it('none in a sound scene', () => expect(warnings({})).toEqual([]));

  it('a mark, a lamp or a camera inside something solid', () => {
    expect(warnings({ 'solids.1': crate, 'marks.0.position_m': [5, 1, 0] })).toEqual([
      'marks[0].position_m (face): found a place inside Crate; expected a place in the open',
    ]);
    expect(warnings({ 'solids.1': crate, 'lamps.0.position_m': [4.5, 1, 0] })).toEqual([
      'lamps[0].position_m (key): found a place inside Crate; expected a place in the open',
    ]);
    expect(warnings({ 'solids.1': crate, 'cameras.0.position_m': [5.5, 1.2, 0] })).toEqual([
      'cameras[0].position_m (a): found a place inside Crate; expected a place in the open',
    ]);
  });

  it('not a mark that lies on a surface', () => {
    expect(warnings({ 'solids.1': crate, 'marks.0.position_m': [5, 2, 0] })).toEqual([]);
  });

  it('a mark inside a figure, told by its name', () => {
    expect(
      warnings({ figures: [{ id: 'ada', position_m: [0, 0, 0] }], 'marks.0.position_m': [0, 1.2, 0] }),
    ).toEqual(['marks[0].position_m (face): found a place inside ada; expected a place in the open']);
  });

  it('a lamp above its stand', () => {
    expect(warnings({ 'lamps.0.position_m': [0, 4, 4], 'lamps.0.stand': { maxHeight_m: 3.2 } })).toEqual([
      "lamps[0].position_m (key): found 4 m, above its stand's 3.2 m; expected a height that the stand reaches (measured from y = 0, as nothing is modelled below it)",
    ]);
    expect(warnings({ 'lamps.0.position_m': [0, 3.2, 4], 'lamps.0.stand': { maxHeight_m: 3.2 } })).toEqual(
      [],
    );
  });

  it('counts its height from what is modelled below it', () => {
    const on = (top_m: number, y: number) => {
      const platform = { ...crate, id: 'platform', name: 'Platform', position_m: [0, top_m - 1, 4] };
      const lamp = { 'lamps.0.position_m': [0, y, 4], 'lamps.0.stand': { maxHeight_m: 3.2 } };
      return warnings({ 'solids.1': platform, ...lamp });
    };
    // derived: 4.2 − 1.1 = 3.1 m over a platform at 1.1 m; 3.0 + 0.5 = 3.5 m over a floor at −0.5 m.
    expect(on(1.1, 4.2)).toEqual([]);
    expect(on(-0.5, 3)).toEqual([
      "lamps[0].position_m (key): found 3.5 m, above its stand's 3.2 m; expected a height that the stand reaches (measured from Platform at y = -0.5 m)",
    ]);
  });
});
