import { describe, expect, it } from 'vitest';
import { findPaneImages } from '../../../src/core/mirror/find-pane-images.ts';
import { isotropic, lampAt, modelOf, opaque, pane, sheetAt } from '../../support/light-models.ts';
import { cameraAt } from './support/mirror-scene.ts';

const DISC = { shape: 'disc', radius_m: 0.1 } as const;
const lamp = lampAt([0, 0, 5], [0, 0, 0], isotropic(1000), DISC);
const view = { camera: cameraAt([0, 0, 3], [0, 0, 0]), zero_cd_m2: 1 };

describe('lamps mirrored in panes', () => {
  it('are as bright as both faces of plain glass make them', () => {
    const model = modelOf({ lamps: [lamp], parts: [pane(sheetAt(0, 0, 0, 1, 1))], panes: [0.92] });
    const [image] = findPaneImages(model, view);
    // derived: 2R/(1 + R) with R = 0.04 (check value G5: 0.076923), of I/A
    expect(Math.abs(image!.reflectance - 0.076923)).toBeLessThan(1e-6);
    expect(image!.luminance_cd_m2).toBeCloseTo((0.0769230769 * 1000) / (Math.PI * 0.01), 4);
    expect(image!.inFrame).toBe(true);
    expect(image!.pixel![0]).toBeCloseTo(0.5, 9);
    expect(image!.point_m).toEqual([0, 0, 0]);
  });

  it('are not looked for in what scatters more than it lets through, nor where they are hidden or dim', () => {
    const frosted = modelOf({
      lamps: [lamp],
      parts: [pane(sheetAt(0, 0, 0, 1, 1))],
      panes: [{ direct: 0.1, scattered: 0.5 }],
    });
    expect(findPaneImages(frosted, view)).toHaveLength(0);
    const hidden = modelOf({
      lamps: [lamp],
      parts: [pane(sheetAt(0, 0, 0, 1, 1)), opaque(sheetAt(0, 0, 4, 2, 2))],
      panes: [0.92],
    });
    expect(findPaneImages(hidden, view)).toHaveLength(0);
    const clear = modelOf({ lamps: [lamp], parts: [pane(sheetAt(0, 0, 0, 1, 1))], panes: [0.92] });
    expect(findPaneImages(clear, view, 20)).toHaveLength(0);
  });
});
