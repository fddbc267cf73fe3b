import { describe, expect, it } from 'vitest';
import { type CureWords, glintSheet } from '../../src/paperwork/glint-sheet.ts';
import type { GlintReport, SceneGlint, SceneLampInView } from '../../src/scene/mirror/find-scene-glints.ts';

const GLINT: SceneGlint = {
  lamp: 'back',
  lampName: 'Backlight',
  solid: 'boat',
  solidName: 'Boat',
  place: { side: 'right side', from: 'the bow', along_m: 4.2, height_m: 2.4, level: false },
  kind: 'image',
  point_m: [7.8, 2.4, -2.4],
  normal: [0, 0, 1],
  incidence_deg: 72.3,
  reflectance: 0.203,
  polarised: { s: 0.341, p: 0.066 },
  inFrame: true,
  pixel: [0.61, 0.4],
  toCamera_m: 19,
  toLamp_m: 6,
  hazeLoss_stops: 0,
  luminance_cd_m2: 300_000,
  mirror_cd_m2: 300_000,
  stops: 14.5,
  polarised_stops: 11.9,
  faceShare: 1,
  patch: { along_m: 1.5, across_m: 0.2, ofFrameWidth: 0.05 },
  approximate: false,
  burns: true,
  uncertainty_stops: 1.2,
};

const LAMP: SceneLampInView = {
  lamp: 'back',
  name: 'Backlight',
  distance_m: 34.2,
  offAxis_deg: 8,
  inFrame: true,
  pixel: [0.72, 0.43],
  facing: true,
  faceShare: 1,
  hiddenBy: null,
  luminance_cd_m2: 1e6,
  stops: 17.3,
  lens_lx: 200,
  veil_cd_m2: 1.3,
  veil_stops: -2.3,
};

function sheet(changes: Partial<GlintReport>, words?: CureWords) {
  const report: GlintReport = {
    keyfall: 1,
    title: 'Last boat',
    setup: null,
    camera: 'a',
    zero_cd_m2: 6.25,
    clip_stops: 5.5,
    glints: [],
    panes: [],
    lamps: [],
    veil: { index: 0.02, luminance_cd_m2: 1.3, stops: -2.3, uncertainty_stops: 2 },
    tooRough: [],
    lampsOff: [],
    ...changes,
  };
  return glintSheet(report, words);
}

const lines = (s: ReturnType<typeof sheet>, heading: RegExp) =>
  s.blocks.find((b) => heading.test(b.heading))?.lines.map(({ text }) => text) ?? [];

describe('the glint sheet', () => {
  it('says of a glint where, how strong, how sure, how large and what a polariser can do', () => {
    const { verdict, blocks } = sheet({ glints: [GLINT] });
    expect(verdict).toBe('Backlight mirrors white in this frame.');
    expect(blocks).toHaveLength(1);
    expect(blocks[0]!.lines[0]!.text).toBe(
      'Backlight mirrors in Boat, right side, 4.20 m from the bow, 2.40 m up, in frame at 61 % across, 40 % down; ' +
        "incidence 72°, +14.5 stops (±1.2), 9.0 over white. White over 1.5 × 0.2 m, 5 % of the frame's width. " +
        'A perfect polariser leaves +11.9, +12.9 when the scene is opened up for it: geometry or a flag only.',
    );
  });

  it('says what is curved, what is only sheen, what a polariser can cure', () => {
    const [text] = lines(
      sheet({
        glints: [{ ...GLINT, kind: 'sheen', faceShare: 0, approximate: true, stops: 6, polarised_stops: 2 }],
      }),
      /White in frame/,
    );
    expect(text).toMatch(/^Backlight spreads its sheen over Boat/);
    expect(text).toContain('+6.0 stops (±1.2), 0.5 over white; curved, so about.');
    expect(text).toContain('A perfect polariser leaves +2.0, +3.0 when the scene is opened up for it.');
    const brewster = { ...GLINT, polarised_stops: Number.NEGATIVE_INFINITY };
    expect(lines(sheet({ glints: [brewster] }), /White/)[0]).toContain('leaves next to nothing');
  });

  it('puts what is out of frame, or not white, apart, and counts what is neither', () => {
    const out = { ...GLINT, inFrame: false, burns: false, pixel: [1.12, -0.08] as const };
    const s = sheet({
      glints: [
        out,
        { ...GLINT, lamp: 'key', lampName: 'Key', burns: false, stops: 2, patch: null },
        { ...out, lamp: 'rim', stops: 2, pixel: null },
      ],
    });
    expect(s.verdict).toBe('No lamp mirrors white in this frame.');
    expect(lines(s, /out of frame/)[0]).toContain(
      'out of frame by 12 % of its width to the right and 8 % of its height above',
    );
    expect(lines(s, /below white/)).toHaveLength(1);
    expect(s.footer.join(' ')).toContain('1 dimmer glint out of frame left out.');
  });

  it('takes an image that runs over an edge for one, and many small ones on one thing for one line', () => {
    const beside = { ...GLINT, stops: 14, pixel: [0.62, 0.41] as const };
    expect(lines(sheet({ glints: [GLINT, beside] }), /White/)).toHaveLength(1);
    const dim = { ...GLINT, burns: false, stops: 3, patch: null };
    const spots = [0.1, 0.3, 0.5].map((u) => ({ ...dim, pixel: [u, 0.5] as const }));
    const found = lines(sheet({ glints: spots }), /below/);
    expect(found).toHaveLength(1);
    expect(found[0]).toMatch(/And 2 dimmer on it\.$/);
  });

  it('says how lamps are seen', () => {
    const said = (changes: Partial<SceneLampInView>) =>
      lines(sheet({ lamps: [{ ...LAMP, ...changes }] }), /Lamps/)[0];
    const at = 'Backlight is in frame at 72 % across, 43 % down, 34.2 m off, ';
    expect(said({})).toBe(`${at}its face bare: +17.3 stops.`);
    expect(said({ faceShare: 0, hiddenBy: 'Ada' })).toBe(`${at}hidden by Ada.`);
    expect(said({ faceShare: 0.4, hiddenBy: 'Ada' })).toBe(
      `${at}40 % of its face seen past Ada: +17.3 stops.`,
    );
    expect(said({ facing: false })).toBe(`${at}seen from behind: the head shows, its face does not.`);
    expect(said({ inFrame: false })).toBeUndefined();
  });

  it('says which lamps lay a veil over the picture, and which to flag', () => {
    const key = { ...LAMP, name: 'Key', inFrame: false, offAxis_deg: 49, veil_stops: -5 };
    const dark = { ...LAMP, name: 'Fill', veil_stops: -12 };
    const [text] = lines(sheet({ lamps: [LAMP, key, dark] }), /lens/);
    expect(text).toBe(
      'About 1.3 cd/m² of veil, −2.3 stops (±2), over the whole picture; no black gets darker. ' +
        'Backlight −2.3 (in frame), Key −5.0 (49° off axis: flag it).',
    );
    expect(lines(sheet({ lamps: [dark] }), /lens/)).toHaveLength(0);
  });

  it('carries the words for cures of each white glint, and asks for no others', () => {
    const asked: string[] = [];
    const report = [GLINT, { ...GLINT, lamp: 'key', burns: false, stops: 2 }];
    const s = sheet({ glints: report }, (lamp, solid) => {
      asked.push(`${lamp} in ${solid}`);
      return ['Clear if: it moves.'];
    });
    expect(asked).toEqual(['back in boat']);
    expect(s.blocks[0]!.lines[0]!.cures).toEqual(['Clear if: it moves.']);
  });

  it('says when readings of the night have corrected it', () => {
    const said = (readings: number) => sheet({ corrected: { readings } }).footer.join(' ');
    expect(said(1)).toContain('as a reading of the night would have them');
    expect(said(3)).toContain('as 3 readings of the night would have them');
    expect(sheet({}).footer.join(' ')).not.toContain('of the night would');
  });

  it('ends with its conventions and cautions', () => {
    const { footer } = sheet({ tooRough: ['Quay'], lampsOff: ['Spare'] });
    const text = footer.join(' ');
    expect(text).toContain('ISO 9358');
    expect(text).toContain('Too rough to mirror (use spot): Quay.');
    expect(text).toContain('Off: Spare.');
    expect(text).toContain('Planning aid only.');
  });
});
