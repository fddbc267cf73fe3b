import { describe, expect, it } from 'vitest';
import { findGlints } from '../../../src/core/mirror/find-glints.ts';
import { lensOf } from '../../../src/scene/camera/scene-camera.ts';
import { compileScene } from '../../../src/scene/compile/compile-scene.ts';
import { glintView } from '../../../src/scene/mirror/find-scene-glints.ts';
import { mirroringOnly, seenParts } from '../../../src/scene/mirror/seen-parts.ts';
import { rakedSide } from '../../support/raked-side.ts';

const FILES = { photometry: new Map(), meshes: new Map() };
const box = (id: string, position_m: number[], size_m: number[]) => ({
  id,
  shape: 'box',
  material: 'gloss',
  position_m,
  size_m,
});

describe('the parts that a camera sees', () => {
  const document = rakedSide({
    panes: { glass: { direct: 0.8, scattered: 0, spread_deg: 10 } },
    'solids.1': box('before', [12, 1.5, 6], [0.2, 1, 1]),
    'solids.2': box('hidden', [14, 1.5, 6], [0.2, 0.5, 0.5]),
    'solids.3': box('behind-camera', [-8, 1.5, 6], [1, 1, 1]),
    'solids.4': {
      id: 'window',
      shape: 'pane',
      position_m: [6, 1.5, 8],
      rotation_deg: [0, 90, 0],
      size_m: [1, 1],
      pane: 'glass',
    },
    'solids.5': box('behind-glass', [8, 1.5, 8.6], [0.2, 0.3, 0.3]),
  });
  const model = compileScene(document, FILES);
  const camera = document.cameras![0]!;

  it('are those in frame with nothing opaque before them', () => {
    const owners = [...seenParts(model, lensOf(camera))].map(
      (part) => model.owners[model.parts[part]!.owner]!.id,
    );
    expect(new Set(owners)).toEqual(new Set(['body', 'before', 'behind-glass']));
  });

  it('alone can mirror, if so wanted, and mirror as before', () => {
    const view = glintView(document, camera);
    const all = findGlints(model, view);
    const body = mirroringOnly(model, (part) => model.parts[part]!.owner === 0);
    expect(all.length).toBeGreaterThan(0);
    expect(findGlints(body, view)).toEqual(all.filter(({ owner }) => owner === 0));
    expect(
      findGlints(
        mirroringOnly(model, () => false),
        view,
      ),
    ).toEqual([]);
  });
});
