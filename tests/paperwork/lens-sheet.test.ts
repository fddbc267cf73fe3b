import { describe, expect, it } from 'vitest';
import { lensSheet, signedStops, stopsText } from '../../src/paperwork/lens-sheet.ts';
import { compileScene } from '../../src/scene/compile/compile-scene.ts';
import { lensReport } from '../../src/scene/framing/lens-report.ts';
import { edited, opened, smallScene } from '../support/scenes.ts';

function sheet(changes: Record<string, unknown> = {}, request = {}) {
  const scene = opened(edited(smallScene(), changes));
  return lensSheet(
    lensReport(scene, compileScene(scene, { photometry: new Map(), meshes: new Map() }), request),
  );
}

const PULSING = { kind: 'discharge', input_W: 400, flicker: 'mains' };
const ON_50 = { mains: { volts: 230, hertz: 50 } };

describe('the lens sheet', () => {
  it('is headed by the lens, the stop and the shutter', () => {
    expect(sheet().heading).toBe('Base · camera a · 50 mm on 36 × 24 mm · f/4 · 1/50 s');
    expect(sheet({}, { setup: '1a', rate_fps: 25 }).heading).toBe(
      'Setup 1a · camera a · 50 mm on 36 × 24 mm · f/4 · 1/50 s · 25 fps, shutter 180°',
    );
  });

  it('names what is in shot first', () => {
    const { findings, lamps } = sheet({
      'lamps.0.position_m': [0.5, 1, -2],
      'lamps.0.stand': { maxHeight_m: 3 },
      solids: [],
    });
    expect(findings[0]).toMatch(/^key: head and stand in shot, \d+ % across, \d+ % down\. Move it/);
    expect(lamps[1]![1]).toMatch(/^IN SHOT/);
    expect(sheet({ 'lamps.0.position_m': [0.5, 1, -2], solids: [] }).findings[0]).toContain('a practical');
  });

  it('says what to do about flicker, with its cost', () => {
    const unsafe = { 'heads.plain.electrical': PULSING, site: ON_50, 'cameras.0.shutter_s': 1 / 60 };
    const text = sheet(unsafe).findings.find((finding) => finding.startsWith('Flicker'))!;
    // derived: 0.85·0.1654 = 0.1406, log₂(1.1406/0.8594) = 0.41 stop; 1/100 is −0.7, 1/50 +0.3 stops
    expect(text).toContain('1/60 s is not safe on 50 Hz');
    expect(text).toContain('key (discharge) 0.41 stop');
    expect(text).toContain('Safe: 1/100 s (−0.7 stops) or 1/50 s (+0.3 stops).');
    expect(sheet({ ...unsafe, 'cameras.0.shutter_s': 0.02 }).findings).toContain(
      'Flicker: 1/50 s takes in whole pulses of 50 Hz light: no flicker from key.',
    );
    expect(sheet({ 'heads.plain.electrical': PULSING }).findings[0]).toContain('give site.mains');
    expect(sheet().findings[0]).toContain('is not known: their heads do not say');
  });

  it('lists safe angles and rates for film', () => {
    const on60 = {
      'heads.plain.electrical': PULSING,
      site: { mains: { volts: 120, hertz: 60 } },
      'cameras.0.shutter_s': 0.02,
    };
    // derived: 360·25·n/120; 120/5 and 120/4
    expect(sheet(on60, { rate_fps: 25 }).findings).toContain(
      'Safe shutters at 25 fps: 75° (1/120 s), 150° (1/60 s), 225° (1/40 s), 300° (1/30 s); at 24 fps or 30 fps every shutter is.',
    );
    expect(sheet(on60, { rate_fps: 24 }).findings.join(' ')).toContain('At 24 fps frames keep step');
  });

  it('says that cables are not checked, and which circle is sharp', () => {
    const { footer } = sheet();
    expect(footer.join(' ')).toContain('Cables are not checked');
    expect(footer[0]).toContain('0.0288 mm');
  });

  it('says when a shutter is longer than a frame', () => {
    expect(sheet({ 'cameras.0.shutter_s': 0.1 }, { rate_fps: 25 }).findings.join(' ')).toContain(
      '1/10 s is longer than a frame at 25 fps',
    );
  });

  it('spells stops', () => {
    expect([stopsText(0.369), stopsText(1), stopsText(1.24)]).toEqual(['0.37 stop', '1.0 stop', '1.2 stops']);
    expect([signedStops(-3.445), signedStops(0.01)]).toEqual(['−3.4 stops', 'same light']);
  });
});
