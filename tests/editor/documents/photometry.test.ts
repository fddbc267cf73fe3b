import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { faceOf, headFrom, takeHead } from '../../../src/editor/documents/head-from-file.ts';
import {
  lookAtPhotometry,
  type PhotometrySummary,
  SECTION_STEPS,
} from '../../../src/editor/documents/photometry-summary.ts';
import { ringsFor } from '../../../src/editor/documents/polar-rings.ts';
import { createEditorStore } from '../../../src/editor/store/editor-store.ts';
import { undo } from '../../../src/editor/store/edits.ts';
import { fullScene, smallScene } from '../../support/scenes.ts';

const FOLDER = 'tests/fixtures/photometry';
const bytesOf = (name: string) => new Uint8Array(readFileSync(`${FOLDER}/${name}`));

function summaryOf(name: string, lampSet = 0): PhotometrySummary {
  const looked = lookAtPhotometry(name, bytesOf(`synthetic/${name}`), lampSet);
  if (!looked.summary) throw new Error(looked.fault.found);
  return looked.summary;
}

describe('what is shown of a photometric file', () => {
  it('are its flux, peak and angles', () => {
    const { flux_lm, peak_cd, axis_cd, beam, field, goniometry } = summaryOf('lambert-C-h0.ies');
    // derived: I = 1000 cos γ has Φ = π·1000 lm, falls to half at 60° and to a tenth at acos 0.1 = 84.26°
    expect(flux_lm).toBeCloseTo(1000 * Math.PI, 0);
    expect([peak_cd, axis_cd, goniometry]).toEqual([1000, 1000, 'C']);
    expect(beam.mean_deg).toBeCloseTo(120, 0);
    expect(field.mean_deg).toBeCloseTo(168.5, 0);
  });

  it('are both planes, C 0 and C 90 to the right', () => {
    const { sections } = summaryOf('bilateral-C-h0-180.ies');
    const at = (section: Float64Array, angle_deg: number) =>
      section[Math.round(((angle_deg + 180) / 360) * SECTION_STEPS)]!;
    // derived: the file is I = 1000 cos γ (1 + 0.5 cos C)
    const fallen = Math.cos(Math.PI / 6);
    expect(at(sections.c0_cd, 30)).toBeCloseTo(1500 * fallen, 0);
    expect(at(sections.c0_cd, -30)).toBeCloseTo(500 * fallen, 0);
    expect(at(sections.c90_cd, 30)).toBeCloseTo(1000 * fallen, 0);
    expect(at(sections.c90_cd, -30)).toBeCloseTo(1000 * fallen, 0);
    expect(at(sections.c0_cd, 120)).toBe(0);
  });

  it('is the chosen one of several lamp sets', () => {
    const [one, two] = [summaryOf('two-lamp-sets.ldt'), summaryOf('two-lamp-sets.ldt', 1)];
    // derived: expected-ldt.json states nadir and watts of both sets
    expect([one.lampSets, one.axis_cd, one.inputPower_W]).toEqual([2, 1000, 100]);
    expect([two.lampSets, two.axis_cd, two.inputPower_W]).toEqual([2, 1600, 220]);
    expect(summaryOf('isym1-rotational.ldt').lampSets).toBe(1);
  });

  it.each(readdirSync(`${FOLDER}/broken`).filter((name) => /\.(ies|ldt)$/.test(name)))(
    'of %s is its fault, with line and mend',
    (name) => {
      const { fault } = lookAtPhotometry(name, bytesOf(`broken/${name}`), 0);
      expect(fault?.line).toBeGreaterThan(0);
      for (const words of [fault?.found, fault?.expected, fault?.mend]) expect(words).toMatch(/\S/);
    },
  );
});

describe('the rings of a polar diagram', () => {
  it.each([
    [1000, [200, 400, 600, 800, 1000]],
    [1558, [500, 1000, 1500, 2000]],
    [22_000, [5000, 10_000, 15_000, 20_000, 25_000]],
    [0.03, [0.01, 0.02, 0.03]],
  ])('for a peak of %d cd', (peak_cd, rings) => expect(ringsFor(peak_cd)).toEqual(rings));

  it('reach the peak and are few, whatever it is', () => {
    for (let peak_cd = 1e-6; peak_cd < 1e9; peak_cd *= 1.37) {
      const rings = ringsFor(peak_cd);
      expect(rings.at(-1)).toBeGreaterThanOrEqual(peak_cd * (1 - 1e-6));
      expect(rings.length).toBeLessThanOrEqual(5);
      expect(rings.length).toBeGreaterThanOrEqual(2);
    }
  });
});

describe('a head out of a photometric file', () => {
  const name = 'cos10-flood-C.ies';
  const summary = summaryOf(name);
  const head = headFrom(name, new TextDecoder('latin1').decode(bytesOf(`synthetic/${name}`)), {
    name: 'Flood',
    light: 'led',
    cct_K: 5600,
    face: faceOf(summary),
    input_W: 150,
    lampSet: 0,
  });

  function store(scene = smallScene()) {
    const made = createEditorStore();
    made.setState({ scene: { document: scene, beside: new Map() } });
    return made;
  }

  it('has the face that the file states', () => {
    const stated = (opening: Partial<PhotometrySummary['opening']>, format: PhotometrySummary['format']) =>
      faceOf({ ...summary, format, opening: { ...summary.opening, ...opening } });
    const long = { shape: 'rectangle', width_m: 0.3, length_m: 1.2 } as const;
    expect(stated(long, 'LM-63')).toEqual({ shape: 'rectangle', size_m: [1.2, 0.3] });
    expect(stated(long, 'EULUMDAT')).toEqual({ shape: 'rectangle', size_m: [0.3, 1.2] });
    expect(stated({ shape: 'circle', width_m: 0.25, length_m: 0.25 }, 'LM-63')).toEqual({
      shape: 'disc',
      diameter_m: 0.25,
    });
    expect(stated({ shape: 'point', width_m: 0, length_m: 0 }, 'LM-63')).toMatchObject({ shape: 'disc' });
  });

  it('goes into the lamp that was named, in one step', () => {
    const at = store();
    expect(takeHead(at, head, 'key')).toBe(true);
    expect(at.getState().scene!.document.lamps![0]!.head).toBe('flood');
    expect(at.getState().scene!.document.heads!.flood).toEqual(head);
    expect(at.getState().step).toBe('Take in Flood');
    undo(at);
    expect(at.getState().scene!.document).toEqual(smallScene());
  });

  it('or into a new one, which is then chosen', () => {
    const at = store();
    expect(takeHead(at, head, null)).toBe(true);
    const lamps = at.getState().scene!.document.lamps!;
    expect(lamps).toHaveLength(2);
    expect(lamps[1]!.head).toBe('flood');
    expect(at.getState().chosen).toEqual([lamps[1]!.id]);
  });

  it('becomes part of the base while a setup is shown, and of the lamp in that setup only', () => {
    const scene = fullScene();
    const at = store(scene);
    const [setup] = scene.setups!;
    const lamp = scene.lamps!.at(-1)!;
    at.setState({ setup: setup!.id });
    expect(takeHead(at, head, lamp.id)).toBe(true);
    const { document } = at.getState().scene!;
    expect(document.heads!.flood).toEqual(head);
    expect(document.lamps!.at(-1)!.head).toBe(lamp.head);
    expect(document.setups![0]!.changes[lamp.id]).toMatchObject({ head: 'flood' });
  });

  it('is refused with the reason where a figure is no good', () => {
    const at = store();
    expect(takeHead(at, { ...head, spectrum: { kind: 'led', cct_K: 12 } }, 'key')).toBe(false);
    expect(at.getState().refusedEdit).toMatch(/cct_K/);
    expect(at.getState().scene!.document).toEqual(smallScene());
  });
});
