import { describe, expect, it } from 'vitest';
import { keyfall, SCENES } from '../support/command-line.ts';

const CARD = `${SCENES}lamp-and-card.json`;

describe('keyfall spot', () => {
  it('reads what Lambert’s law gives for a grey card', async () => {
    // derived: 2000 cd at 4 m square on, ρ = 0.18: L = 0.18·125/π = 7.162 cd/m²; zero 12.5 cd/m² at f/4, 1/50 s, ISO 800
    const { code, out } = await keyfall('spot', CARD, '--point', '0,1,0', '--json');
    const spot = JSON.parse(out);
    expect(code).toBe(0);
    expect(spot.luminance_cd_m2).toBeCloseTo((0.18 * 125) / Math.PI, 1);
    expect(spot.stops).toBeCloseTo(Math.log2((0.18 * 125) / Math.PI / 12.5), 1);
    expect(spot.surface).toBe('card');
    expect(spot.inFrame).toBe(true);
    expect(spot.parts.haze_cd_m2).toBe(0);
    expect(spot.uncertainty.numerical_stops).toBeLessThanOrEqual(0.05);
    // derived: a metered lamp is good to ⅓ stop, a reflectance to ½: √(1/9 + 1/4)
    expect(spot.uncertainty.input_stops).toBeCloseTo(0.6009, 3);
    expect(spot.rgb_linear).toHaveLength(3);
    expect(spot.distance_m).toBeCloseTo(Math.hypot(1, 0.2, 3), 6);
  });

  it('sees the same by the place in the frame', async () => {
    const byPixel = JSON.parse((await keyfall('spot', CARD, '--pixel', '0.5,0.5', '--json')).out);
    const byPoint = JSON.parse((await keyfall('spot', CARD, '--point', '0,1,0', '--json')).out);
    expect(byPixel.surface).toBe('card');
    expect(Math.abs(Math.log2(byPixel.luminance_cd_m2 / byPoint.luminance_cd_m2))).toBeLessThan(0.1);
  });

  it('says what it looked at, in words', async () => {
    const { out } = await keyfall('spot', CARD, '--point', '0,1,0');
    expect(out).toContain('Grey card, 3.2 m from camera a');
    expect(out).toContain('cd/m²');
    expect(out).toMatch(/±0\.0\d stop/);
    expect((await keyfall('spot', CARD, '--point', '0,9,0')).out).toContain('out of frame');
  });

  it('says the colour as the frame shows it and as it is', async () => {
    const { out } = await keyfall('spot', CARD, '--point', '0,1,0', '--json');
    const { srgb, uvPrime } = JSON.parse(out);
    // derived: a black body of 3200 K off a neutral card is at u′ 0.2440, v′ 0.5173, and orange to a camera at 5600 K
    expect(uvPrime[0]).toBeCloseTo(0.244, 3);
    expect(uvPrime[1]).toBeCloseTo(0.5173, 3);
    const [red, green, blue] = srgb.match(/[0-9a-f]{2}/g).map((hex: string) => Number.parseInt(hex, 16));
    expect(red).toBeGreaterThan(green);
    expect(green).toBeGreaterThan(blue);
    expect((await keyfall('spot', CARD, '--point', '0,1,0')).out).toContain(`${srgb} in the frame at 5600 K`);
  });

  it('names a lamp that it looks into, and the sky', async () => {
    const into = await keyfall('spot', `${SCENES}night-quay.json`, '--point', '5.5,2.6,1.8', '--json');
    expect(JSON.parse(into.out)).toMatchObject({ surface: 'rim', srgb: '#ffffff' });
    const up = JSON.parse((await keyfall('spot', CARD, '--point', '1,9,3.1', '--json')).out);
    // derived: this scene has no sky, so there is nothing to be wrong about and no colour
    expect(up).toMatchObject({
      surface: null,
      distance_m: null,
      srgb: '#000000',
      uvPrime: null,
      stops: null,
    });
    expect(up.uncertainty.input_stops).toBe(0);
  });

  it('refuses nonsense', async () => {
    for (const args of [
      [],
      ['--point', '1,2'],
      ['--pixel', '0.5,2'],
      ['--point', '0,1,0', '--pixel', '0.5,0.5'],
    ]) {
      const { code, out, err } = await keyfall('spot', CARD, ...args);
      expect(code, args.join(' ')).toBe(2);
      expect(out).toBe('');
      expect(err).toContain('keyfall spot');
    }
  });
});
