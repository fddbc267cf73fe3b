import { describe, expect, it } from 'vitest';
import { lampFrame } from '../../../src/core/lamps/lamp-frame.ts';
import type { LightModel } from '../../../src/core/light-model/light-model.ts';
import type { Vec3 } from '../../../src/core/math/vec3.ts';
import { directLight } from '../../../src/core/transport/direct.ts';
import { newDirectMemo } from '../../../src/core/transport/direct-memo.ts';
import { hazeBox, lampAt, modelOf, opaque, pane, sheetAt } from '../../support/light-models.ts';

const BEAM = { kind: 'beam', peak_cd: 2000, beam_deg: 40, field_deg: 70 } as const;
const DISC = { shape: 'disc', radius_m: 0.2 } as const;
const PARTS = [opaque(sheetAt(0.3, 0, 1, 0.5, 2)), pane(sheetAt(-1, 0, 1, 1, 2))];
const MODEL = modelOf({
  lamps: [lampAt([0, 0, 4], [0, 0, 0], BEAM, DISC), lampAt([-1, 1, 3], [0, 0, 0], BEAM, DISC)],
  parts: PARTS,
  panes: [0.7],
  extinction_per_m: 0.05,
  skyIlluminance_lx: 3,
});
const METER = { position_m: [0, 0, 0] as Vec3, facing: [0, 0, 1] as Vec3 };
const OPTIONS = { receptor: 'dome', error_stops: 0.01, maxSamples: 4096 } as const;

const withLamp = (change: Partial<LightModel['lamps'][number]>): LightModel => ({
  ...MODEL,
  lamps: MODEL.lamps.with(1, { ...MODEL.lamps[1]!, ...change }),
});
const withModel = (change: Parameters<typeof modelOf>[0]): LightModel => ({
  ...MODEL,
  ...modelOf({ parts: PARTS, panes: [0.7], extinction_per_m: 0.05, skyIlluminance_lx: 3, ...change }),
  lamps: MODEL.lamps,
});

/** Each differs from the model in one thing alone; all else is the very object. */
const CHANGES: readonly { what: string; changed: LightModel; meter?: typeof METER }[] = [
  { what: 'where a lamp stands', changed: withLamp({ frame: lampFrame([-1.2, 1, 3], [0, 0, 0]) }) },
  { what: 'how large its face is', changed: withLamp({ face: { shape: 'disc', radius_m: 0.4 } }) },
  { what: 'its beam', changed: withLamp({ distribution: { ...BEAM, beam_deg: 20 } }) },
  { what: 'its level', changed: withLamp({ gain: 0.5 }) },
  { what: 'what stands between', changed: withModel({ parts: [PARTS[1]!] }) },
  { what: 'how clear a pane is', changed: { ...MODEL, paneDirect: Float64Array.of(0.4) } },
  { what: 'how dense haze is', changed: { ...MODEL, haze: { ...MODEL.haze!, extinction_per_m: 0.1 } } },
  {
    what: 'where haze is',
    changed: { ...MODEL, haze: { ...MODEL.haze!, regions: [hazeBox([-1, -1, 1], [1, 1, 2])] } },
  },
  { what: 'the sky', changed: { ...MODEL, sky: { ...MODEL.sky!, illuminance_lx: 9 } } },
  { what: 'where the meter is held', changed: MODEL, meter: { ...METER, position_m: [0.2, 0, 0] } },
  { what: 'where it points', changed: MODEL, meter: { ...METER, facing: [0, 1, 0] } },
];

describe('straight light with a memo', () => {
  it.each(CHANGES)('is what it is without one when what changes is $what', ({ changed, meter = METER }) => {
    const memo = newDirectMemo();
    const before = directLight(MODEL, METER, OPTIONS, memo);
    const after = directLight(changed, meter, OPTIONS, memo);
    // derived: the same sums without anything to take over
    expect(after).toEqual(directLight(changed, meter, OPTIONS));
    expect(after).not.toEqual(before);
    expect(directLight(MODEL, METER, OPTIONS, memo)).toEqual(before);
  });
});
