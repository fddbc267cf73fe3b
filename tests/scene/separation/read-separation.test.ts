import { describe, expect, it } from 'vitest';
import { newCameraRay } from '../../../src/core/camera/thin-lens.ts';
import { readSpot } from '../../../src/core/frame/spot-reading.ts';
import { contrastOf } from '../../../src/core/separation/contrast.ts';
import { bandWidth, meetsFigure, pointAlong } from '../../../src/core/separation/edge-cell.ts';
import { addEdgePaths, newEdgeLight } from '../../../src/core/separation/edge-light.ts';
import { rayThrough } from '../../../src/core/separation/image-plane.ts';
import { pieceContrast } from '../../../src/core/separation/read-outline.ts';
import { newTracer } from '../../../src/core/transport/tracer.ts';
import { compileScene } from '../../../src/scene/compile/compile-scene.ts';
import type { SceneDocument } from '../../../src/scene/schema/document.ts';
import { readSeparation, sightOf } from '../../../src/scene/separation/read-separation.ts';
import { sideOf } from '../../core/separation/support.ts';

const FILES = { photometry: new Map(), meshes: new Map() };

/** One person before a wall, a lamp on each. */
function person(changes: Partial<SceneDocument> = {}): SceneDocument {
  return {
    keyfall: 1,
    title: 'Person and wall',
    solids: [
      { id: 'wall', shape: 'panel', position_m: [0, 1.5, -2], material: 'grey-card', size_m: [12, 6] },
      { id: 'ground', shape: 'box', position_m: [0, -0.05, 0], material: 'concrete', size_m: [12, 0.1, 12] },
    ],
    figures: [{ id: 'ada', position_m: [0, 0, 0], upper: 'wool-dark', lower: 'wool-dark' }],
    heads: {
      plain: {
        photometry: { kind: 'beam', peak_cd: 2000, beam_deg: 60, field_deg: 90 },
        face: { shape: 'disc', diameter_m: 0.3 },
        spectrum: { kind: 'planck', cct_K: 3200 },
      },
    },
    lamps: [
      { id: 'side', head: 'plain', position_m: [4, 2.5, 2], aim_m: [0, 1.2, 0] },
      { id: 'wash', head: 'plain', position_m: [-3, 2.5, 0], aim_m: [0, 1.2, -2], level: 0.4 },
    ],
    cameras: [
      {
        id: 'a',
        position_m: [0, 1.4, 6],
        look_m: [0, 1, 0],
        sensor_mm: [36, 24],
        focal_mm: 50,
        fNumber: 4,
        shutter_s: 0.02,
        iso: 800,
      },
    ],
    ...changes,
  };
}

describe('reading an outline', () => {
  it('reads inside and outside what the spot meter reads there', () => {
    const document = person();
    const model = compileScene(document, FILES);
    const tracer = newTracer(model);
    const { figures, lens, camera } = readSeparation(document, model, { error_stops: 2 });
    const { readings, owner } = figures[0]!;
    const sight = sightOf(document, camera, null);
    const ray = newCameraRay();
    for (let k = 5; k < readings.length; k += 30) {
      const { cell } = readings[k]!;
      // derived: the mean of the spot meter over a grid across the band is the mean over the band, but for how coarse it is
      const spots = { inside: [] as number[], outside: [] as number[] };
      for (let along = 1 / 16; along < 1; along += 1 / 8) {
        for (const across of [0.25, 0.75]) {
          for (const side of ['inside', 'outside'] as const) {
            const off = bandWidth(lens) * across * (side === 'inside' ? -1 : 1);
            const { x, y } = pointAlong(cell.line, along * cell.length, off, { x: 0, y: 0 });
            rayThrough(lens, x, y, ray);
            // Where the edge curves, a place by it may be on the other side.
            if (meetsFigure(model, owner, ray) !== (side === 'inside')) continue;
            const options = { zero_cd_m2: sight.zero_cd_m2, error_stops: 0.05 };
            const spot = readSpot(tracer, lens.position_m, [ray.dx, ray.dy, ray.dz], options);
            spots[side].push(spot.luminance_cd_m2);
          }
        }
      }
      expect(Math.min(spots.inside.length, spots.outside.length)).toBeGreaterThanOrEqual(8);
      const light = { inside: newEdgeLight(2), outside: newEdgeLight(2) };
      for (const side of ['inside', 'outside'] as const)
        addEdgePaths(tracer, lens, owner, cell, side, light[side], 24);
      const read = contrastOf(sideOf(light.inside), sideOf(light.outside), sight);
      const mean = (values: number[]) => values.reduce((sum, v) => sum + v, 0) / values.length;
      const expected = Math.log2(mean(spots.inside) / mean(spots.outside));
      // A cell may run over the hem from skin to cloth: sixteen places tell its share of either to a sixteenth.
      expect(Math.abs(read.stops - expected), `cell ${k}`).toBeLessThan(0.12 + 1.5 * read.numerical_stops);
    }
  }, 60_000);

  it('states errors that hold: long runs of a stretch lie within them', () => {
    const document = person({ haze: { visibility_m: 150 } });
    const model = compileScene(document, FILES);
    const tracer = newTracer(model);
    const { figures, lens, camera } = readSeparation(document, model, { error_stops: 0.1 });
    const { readings, stretches, owner } = figures[0]!;
    const sight = sightOf(document, camera, null);
    let within = 0;
    const tried = stretches.filter((_, i) => i % 3 === 0);
    for (const { cells } of tried) {
      const stated = pieceContrast(
        cells.map((i) => readings[i]!),
        sight,
      );
      const long = cells.map((i) => {
        const light = { inside: newEdgeLight(2), outside: newEdgeLight(2) };
        for (const side of ['inside', 'outside'] as const)
          addEdgePaths(tracer, lens, owner, readings[i]!.cell, side, light[side], 48);
        return light;
      });
      const side = (of: 'inside' | 'outside') => {
        const lights = long.map((light) => light[of]);
        return { lights, near: lights.map(() => lights), weights: lights.map(() => 1) };
      };
      const truth = contrastOf(side('inside'), side('outside'), sight);
      const error = Math.hypot(stated.numerical_stops, truth.numerical_stops);
      if (Math.abs(stated.stops - truth.stops) <= error) within++;
      expect(Math.abs(stated.stops - truth.stops)).toBeLessThan(2 * error);
    }
    // derived: 95 % intervals; of eight or so, one miss is chance, two hardly
    expect(within).toBeGreaterThanOrEqual(tried.length - 1);
  }, 60_000);
});
