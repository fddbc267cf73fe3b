import { describe, expect, it } from 'vitest';
import { newTracer, type Tracer } from '../../../src/core/transport/tracer.ts';
import {
  DISTRIBUTION_KINDS,
  EMITTER,
  FACE_SHAPES,
  HAZE_REGION,
  LAMP_TEXELS,
  PANE,
  type Packed,
  SURFACE_KINDS,
  SURFACE_OPTICS,
  SURFACE_TEXELS,
} from '../../../src/preview/pack/layout.ts';
import { packLight } from '../../../src/preview/pack/pack-light.ts';
import { readStruct } from '../../../src/preview/pack/struct.ts';
import { modelOfEveryKind } from '../support/every-kind.ts';
import { sceneModel } from '../support/scene-models.ts';

const tracer = newTracer(await modelOfEveryKind());
const packed = packLight(tracer);
const light = (of: Packed) => of.textures.lightTexels!.data;
const curve = (at: number, length: number) => [
  ...packed.textures.tableTexels!.data.subarray(at, at + length),
];
const rounded = (numbers: ArrayLike<number>) => Array.from(numbers, Math.fround);
const texel = (at: number) => [...light(packed).subarray(4 * at, 4 * at + 3)];

describe('packed lights and surfaces read back as they were', () => {
  it('surfaces, as they are and blurred', () => {
    const kinds = new Set<string>();
    tracer.model.surfaces.forEach((surface, i) => {
      for (const [k, optics] of [surface.optics, surface.blurred].entries()) {
        const at = packed.sections.surfaces!.at + SURFACE_TEXELS * i + k * SURFACE_OPTICS.texelCount;
        const read = readStruct(SURFACE_OPTICS, light(packed), at);
        kinds.add(optics.kind);
        expect(SURFACE_KINDS[read.kind]).toBe(optics.kind);
        expect(read.glossy).toBe(optics.glossy);
        expect(read.baseRgb).toEqual(rounded(optics.baseRgb));
        expect(read.metalN).toEqual(rounded(optics.metalN));
        expect(read.metalK).toEqual(rounded(optics.metalK));
        for (const name of ['alpha', 'coatIor', 'baseLuminance', 'baseScale'] as const)
          expect(read[name]).toBe(Math.fround(optics[name]));
        if (optics.kind === 'coated')
          expect(curve(read.albedo, optics.albedo[0]!.E.length)).toEqual(rounded(optics.albedo[0]!.E));
      }
    });
    expect([...kinds].sort()).toEqual(['coated', 'matt', 'metal']);
  });

  it('panes with their lobes', () => {
    expect(tracer.paneLobes.map((lobe) => lobe === null).sort()).toEqual([false, true]);
    tracer.model.panes.forEach((pane, i) => {
      const read = readStruct(PANE, light(packed), packed.sections.panes!.at + PANE.texelCount * i);
      expect([read.direct, read.scattered]).toEqual(rounded([pane.direct, pane.scattered]));
      const lobe = tracer.paneLobes[i] ?? { exponent: 0, normalisation: 0, excess: [] };
      const { exponent, normalisation, excess } = read.lobe;
      expect([exponent, normalisation]).toEqual(rounded([lobe.exponent, lobe.normalisation]));
      expect(curve(excess, lobe.excess.length)).toEqual(rounded(lobe.excess));
    });
  });

  it('lamps with faces, distributions and colours of every kind', () => {
    const seen = new Set<string>();
    tracer.emitters.forEach((emitter, i) => {
      const at = packed.sections.lamps!.at + LAMP_TEXELS * i;
      const read = readStruct(EMITTER, light(packed), at);
      expect(read.origin).toEqual(rounded(emitter.origin_m));
      expect([...read.r, ...read.t, ...read.a]).toEqual(rounded([...emitter.r, ...emitter.t, ...emitter.a]));
      expect(read.gain).toBe(Math.fround(emitter.gain));
      expect(texel(at + EMITTER.texelCount)).toEqual(rounded(tracer.lampRgb.subarray(3 * i, 3 * i + 3)));

      const { face, distribution, beam } = emitter;
      expect(FACE_SHAPES[read.face.shape]).toBe(face.shape);
      const size =
        face.shape === 'rectangle'
          ? face.halfSize_m
          : [face.shape === 'disc' ? face.radius_m : face.apothem_m, 0];
      expect(read.face.size).toEqual(rounded(size));

      const kind = DISTRIBUTION_KINDS[read.distribution.kind]!;
      seen.add(face.shape).add(kind);
      if (distribution.kind === 'table') {
        expect(kind).toBe(distribution.goniometry);
        const { at: start, verticals, horizontals } = read.distribution;
        const all = [...distribution.vertical_deg, ...distribution.horizontal_deg, ...distribution.candela];
        expect([verticals, horizontals]).toEqual([
          distribution.vertical_deg.length,
          distribution.horizontal_deg.length,
        ]);
        expect(curve(start, all.length)).toEqual(rounded(all));
      } else if (beam) {
        expect(kind).toBe('beam');
        expect(read.distribution.beam.stepsPerChord).toBe(Math.fround(beam.stepsPerChord));
        expect(curve(read.distribution.beam.candela, beam.candela.length)).toEqual(rounded(beam.candela));
      } else {
        expect(kind).toBe('lambert');
        expect(read.distribution.peak_cd).toBe(1234);
      }
    });
    expect([...seen].sort()).toEqual([...FACE_SHAPES, ...DISTRIBUTION_KINDS].sort());
  });

  it('lamp light on every surface', () => {
    const { lampOnSurface_RGB } = tracer.model;
    const { at, count } = packed.sections.lampOnSurface!;
    expect(3 * count).toBe(lampOnSurface_RGB.length);
    for (let pair = 0; pair < count; pair++)
      expect(texel(at + pair)).toEqual(rounded(lampOnSurface_RGB.subarray(3 * pair, 3 * pair + 3)));
  });

  it('haze in its boxes', () => {
    const { regions } = tracer.model.haze!;
    expect(packed.sections.hazeRegions!.count).toBe(2);
    regions!.forEach(({ placement, halfSize_m }, i) => {
      const at = packed.sections.hazeRegions!.at + HAZE_REGION.texelCount * i;
      const read = readStruct(HAZE_REGION, light(packed), at);
      expect(read.origin).toEqual(rounded(placement.origin_m));
      expect([...read.x, ...read.y, ...read.z]).toEqual(
        rounded([...placement.x, ...placement.y, ...placement.z]),
      );
      expect(read.halfSize).toEqual(rounded(halfSize_m));
    });
    expect(packed.uniforms.hazeNumbers).toEqual([0.02, 0.9, 0.7]);
    expect(packed.uniforms.hazeEverywhere).toEqual([0]);
  });

  it('haze that is everywhere, no haze, and the sky', async () => {
    const quay = newTracer(await sceneModel('night-quay'));
    const everywhere = packLight(quay);
    expect(everywhere.uniforms.hazeEverywhere).toEqual([1]);
    expect(everywhere.sections.hazeRegions!.count).toBe(1);
    expect(everywhere.uniforms.skyRadiance).toEqual(
      Array.from(quay.skyRgb, (channel) => channel * quay.skyLuminance),
    );
    const clear: Tracer = { ...quay, model: { ...quay.model, haze: null }, hazeRegions: [] };
    expect(packLight(clear).uniforms.hazeNumbers).toEqual([0, 0, 0]);
    expect(packLight(clear).sections.hazeRegions!.count).toBe(0);
  });
});
