import { describe, expect, it } from 'vitest';
import { compileScene } from '../../../src/scene/compile/compile-scene.ts';
import { cameraAt, lampMovedTo, withCamera, withLampAt } from '../../../src/scene/mirror/moved.ts';
import { rakedSide } from '../../support/raked-side.ts';

const FILES = { photometry: new Map(), meshes: new Map() };

describe('a lamp stood elsewhere', () => {
  it('is what the document with it there compiles to', () => {
    const document = rakedSide({
      'lamps.0.roll_deg': 20,
      'lamps.1': { ...rakedSide().lamps![0]!, id: 'other' },
    });
    const moved = lampMovedTo(compileScene(document, FILES), document, 'back', [22, 4, 3]);
    const compiled = compileScene(withLampAt(document, 'back', [22, 4, 3]), FILES);
    expect(moved.lamps.map(({ frame }) => frame)).toEqual(compiled.lamps.map(({ frame }) => frame));
    expect(moved.lamps.map(({ gain }) => gain)).toEqual(compiled.lamps.map(({ gain }) => gain));
  });

  it('leaves the old document and model alone', () => {
    const document = rakedSide();
    const model = compileScene(document, FILES);
    lampMovedTo(model, document, 'back', [22, 4, 3]);
    withLampAt(document, 'back', [22, 4, 3]);
    expect(document.lamps![0]!.position_m).toEqual([25, 3, 2]);
    expect(model.lamps[0]!.frame.origin_m).toEqual([25, 3, 2]);
  });
});

describe('a camera stood elsewhere', () => {
  it('keeps looking where it looks', () => {
    const document = rakedSide();
    const moved = withCamera(document, cameraAt(document.cameras![0]!, [1, 2, 5]));
    expect(moved.cameras).toEqual([{ ...document.cameras![0]!, position_m: [1, 2, 5] }]);
  });
});
