import { shutterOfAngle_s } from '../core/optics/shutter-angle.ts';
import type { FigureInFrame } from '../scene/framing/figure-in-frame.ts';
import type { FlickerCheck } from '../scene/framing/flicker-check.ts';
import type { LampInShot } from '../scene/framing/lamp-in-shot.ts';
import { isFault, type LensReport, type MarkInFrame } from '../scene/framing/lens-report.ts';
import { type PathBlur, SHARP_px } from '../scene/framing/path-blur.ts';
import type { FramePlace, FrameSide, Sighting } from '../scene/framing/sighting.ts';
import { shutterText, significant } from './exposure-sheet.ts';
import { metresText, tapeText } from './tape-text.ts';

/** The lens and framing sheet as data. Tables carry their heads; sentences stand as they are. */
export interface LensSheet {
  readonly title: string;
  readonly heading: string;
  /** What the lens takes in: a word and what it is. */
  readonly lens: readonly (readonly [string, string])[];
  readonly lamps: readonly (readonly string[])[];
  readonly figures: readonly (readonly string[])[];
  readonly marks: readonly (readonly string[])[];
  /** Findings, the worst first. */
  readonly findings: readonly string[];
  /** Conventions and limits. */
  readonly footer: readonly string[];
}

export function lensSheet(report: LensReport): LensSheet {
  const { lens, shutter } = report;
  const { frame_mm, focus_m, frameAtFocus_m, near_m, far_m } = lens;
  return {
    title: report.title,
    heading: [
      report.setup === null ? 'Base' : `Setup ${report.setup}`,
      `camera ${report.camera}`,
      `${lens.focal_mm} mm on ${decimal(frame_mm[0], 1)} × ${decimal(frame_mm[1], 1)} mm`,
      `f/${lens.fNumber}`,
      shutterText(shutter.shutter_s),
      ...(shutter.rate_fps === null
        ? []
        : [`${decimal(shutter.rate_fps, 3)} fps, shutter ${decimal(shutter.angle_deg!, 1)}°`]),
    ].join(' · '),
    lens: [
      [
        'View',
        `${lens.horizontal_deg.toFixed(1)}° across, ${lens.vertical_deg.toFixed(1)}° up, ` +
          `${lens.diagonal_deg.toFixed(1)}° corner to corner (±1°)`,
      ],
      ['Focus', tapeText(focus_m)],
      ['Frame there', `${tapeText(frameAtFocus_m[0])} wide, ${tapeText(frameAtFocus_m[1])} high`],
      [
        'Sharp',
        far_m === null
          ? `from ${tapeText(near_m)} to infinity`
          : `from ${tapeText(near_m)} to ${tapeText(far_m)}`,
      ],
      ['Hyperfocal', tapeText(lens.hyperfocal_m)],
      ['Pupil', `${decimal(lens.pupil_mm, 1)} mm wide`],
    ],
    lamps: [
      ['Lamp', 'Head', 'Stand'],
      ...report.lamps.map((lamp) => [
        lamp.name,
        sightingText(lamp.head),
        lamp.stand ? sightingText(lamp.stand) : 'none: a practical',
      ]),
    ],
    figures: [
      ['Figure', 'In frame', 'Headroom'],
      ...report.figures.map((f) => [f.name, framingText(f), headroomText(f)]),
    ],
    marks: [
      ['Mark', 'In frame', 'Distance', 'Focus'],
      ...report.marks.map((mark) => [
        mark.name,
        mark.inFrame ? placeText(mark.at!) : 'no',
        mark.at ? metresText(mark.distance_m) : 'behind the camera',
        focusText(mark),
      ]),
    ],
    findings: [
      ...report.lamps.filter(isFault).map(faultText),
      ...report.lamps.filter(isSeenPractical).map(practicalText),
      ...report.figures.flatMap(cutText),
      ...flickerTexts(report.flicker, shutter.shutter_s, shutter.rate_fps),
      ...(shutter.angle_deg !== null && shutter.angle_deg > 360.5
        ? [
            `${shutterText(shutter.shutter_s)} is longer than a frame at ${decimal(shutter.rate_fps!, 3)} fps: no camera films so.`,
          ]
        : []),
      ...report.moves.map((move) => moveText(move, shutter.frameWidth_px)),
    ],
    footer: [
      `Sharp is a circle of confusion of ${lens.circle_mm.toFixed(4)} mm (picture diagonal/1500, common practice); ` +
        'distances are along the axis, from the lens, not from the sensor mark. ±5 %; a lens that breathes departs more close up.',
      'In shot: any point of the emitting face, of the stand’s column or of its feet that the camera sees past solids, figures ' +
        'and through panes. Housings, yokes and legs between are not modelled: leave room.',
      'Cables are not checked: the scene does not say where they run.',
      'Reflections of lamps and stands in shiny things are not looked at here.',
    ],
  };
}

function sightingText(sighting: Sighting): string {
  switch (sighting.seen) {
    case 'in shot':
      return `IN SHOT ${placeText(sighting.at)}${sighting.share < 0.995 ? `, ${percent(sighting.share)} of it` : ''}`;
    case 'hidden':
      return `hidden by ${sighting.behind}`;
    case 'out of frame':
      return `clear ${SIDE_WORDS[sighting.side]} by ${metresText(sighting.by_m)}`;
    case 'behind the camera':
      return 'behind the camera';
  }
}

const SIDE_WORDS: Readonly<Record<FrameSide, string>> = {
  left: 'to the left',
  right: 'to the right',
  top: 'above',
  bottom: 'below',
};

const EDGE_WORDS: Readonly<Record<FrameSide, string>> = {
  left: 'left edge',
  right: 'right edge',
  top: 'top',
  bottom: 'bottom',
};

function placeText({ u, v }: FramePlace): string {
  return `${percent(u)} across, ${percent(v)} down`;
}

function faultText({ name, head, stand }: LampInShot): string {
  const seen = [head.seen === 'in shot' ? 'head' : '', stand?.seen === 'in shot' ? 'stand' : ''].filter(
    Boolean,
  );
  const at = head.seen === 'in shot' ? head.at : stand?.seen === 'in shot' ? stand.at : { u: 0, v: 0 };
  return `${name}: ${seen.join(' and ')} in shot, ${placeText(at)}. Move it, hide it or paint it out.`;
}

function isSeenPractical({ practical, head }: LampInShot): boolean {
  return practical && head.seen === 'in shot';
}

function practicalText({ name }: LampInShot): string {
  return `${name} is in shot; it has no stand, so it is taken for a practical that may be seen.`;
}

function framingText({ framing, cuts }: FigureInFrame): string {
  if (framing === 'out') return 'no';
  if (framing === 'whole') return 'whole';
  return `cut: ${cuts.map(({ side, through }) => `${EDGE_WORDS[side]} (${through.join(', ')})`).join('; ')}`;
}

function headroomText({ framing, headroom }: FigureInFrame): string {
  return framing === 'out' || headroom < 0 ? '–' : `${percent(headroom)} of the height`;
}

/** A figure cut through head or neck is likely a slip; cut through the legs it is a choice. */
function cutText({ name, cuts }: FigureInFrame & { readonly name: string }): string[] {
  return cuts
    .filter(({ through }) => through.includes('head'))
    .map(({ side }) => `${name}: the ${EDGE_WORDS[side]} of the frame cuts the head.`);
}

function focusText({ at, sharp, blur_px }: MarkInFrame): string {
  if (!at || blur_px === null) return '–';
  return sharp ? 'sharp' : `soft, ${significant(blur_px)} px`;
}

function flickerTexts(check: FlickerCheck, shutter_s: number, rate_fps: number | null): string[] {
  const { mains_Hz, lamps, unstated, onBattery, onGenerator, safe, nearest, inStep } = check;
  const texts: string[] = [];
  const names = lamps.map(({ name }) => name).join(', ');
  if (lamps.length > 0 && mains_Hz === null)
    texts.push(`Flicker: ${names} pulse with the mains, but the site states no mains; give site.mains.`);
  if (safe === true)
    texts.push(
      `Flicker: ${shutterText(shutter_s)} takes in whole pulses of ${mains_Hz} Hz light: no flicker from ${names}.`,
    );
  if (safe === false && nearest) {
    const { shorter, longer } = nearest;
    const ripple = lamps.map(
      ({ name, kind, ripple_stops }) => `${name} (${kind}) ${stopsText(ripple_stops!)}`,
    );
    const way = (s: { shutter_s: number; stops: number }) =>
      `${shutterText(s.shutter_s)} (${signedStops(s.stops)})`;
    texts.push(
      `Flicker: ${shutterText(shutter_s)} is not safe on ${mains_Hz} Hz. From frame to frame, for typical lamps of the kind straight on the ` +
        `mains (common practice, no source), up to ${ripple.join(', ')}. ` +
        `Safe: ${shorter ? `${way(shorter)} or ` : ''}${way(longer)}.`,
    );
    if (inStep === false) texts.push(anglesText(check, rate_fps!));
    if (inStep)
      texts.push(
        `At ${decimal(rate_fps!, 3)} fps frames keep step with the mains, so film shows no ripple; stills do.`,
      );
  }
  if (onGenerator.length > 0 && safe !== null)
    texts.push(
      `${onGenerator.join(', ')} run on a generator: its own frequency counts, and it wanders. Test.`,
    );
  if (onBattery.length > 0) texts.push(`${onBattery.join(', ')} run on a battery: no mains flicker there.`);
  if (unstated.length > 0)
    texts.push(
      `Flicker of ${unstated.join(', ')} is not known: their heads do not say (electrical.flicker).`,
    );
  if (lamps.length === 0 && unstated.length === 0 && onBattery.length === 0)
    texts.push('No lamp that is on pulses with the mains.');
  texts.push('LED heads pulse at their own drive frequency, if they do: film a test at each dimmer level.');
  return texts;
}

function anglesText({ safeAngles_deg, safeRates_fps }: FlickerCheck, rate_fps: number): string {
  const angles = safeAngles_deg!.map(
    (angle) => `${decimal(angle, 1)}° (${shutterText(shutterOfAngle_s(angle, rate_fps))})`,
  );
  const rates = safeRates_fps!.map((rate) => `${decimal(rate, 2)} fps`).join(' or ');
  return angles.length > 0
    ? `Safe shutters at ${decimal(rate_fps, 3)} fps: ${angles.join(', ')}; at ${rates} every shutter is.`
    : `No shutter is safe at ${decimal(rate_fps, 3)} fps; at ${rates} every one is.`;
}

function moveText({ name, nearest, ofThisCamera, ofOtherCamera }: PathBlur, frameWidth_px: number): string {
  if (ofOtherCamera) return `${name}: the move of another camera.`;
  if (ofThisCamera) {
    const { speed_m_per_s, focus_m, blur_px } = ofThisCamera;
    return (
      `${name}: this camera moves at up to ${significant(speed_m_per_s)} m/s; what stands still ${metresText(focus_m)} off, in focus, ` +
      `blurs by up to ${significant(blur_px)} px of ${frameWidth_px}, most if the move is across the view.`
    );
  }
  if (!nearest) return `${name}: never seen in this frame.`;
  const { t_s, distance_m, speed_m_per_s, blur_px, sharp } = nearest;
  const where = `${name}: nearest in frame at ${decimal(t_s, 1)} s, ${metresText(distance_m)} off, ${significant(speed_m_per_s)} m/s`;
  const blur = `blur ${significant(blur_px)} px of ${frameWidth_px} across`;
  if (!sharp) return `${where}: ${blur}, sharp.`;
  return `${where}: ${blur}; ${SHARP_px} px needs ${shutterText(sharp.shutter_s)} (${signedStops(sharp.stops)}).`;
}

export function stopsText(stops: number): string {
  return `${stops.toFixed(stops < 1 ? 2 : 1)} ${stops < 1.05 ? 'stop' : 'stops'}`;
}

export function signedStops(stops: number): string {
  const size = Math.abs(stops).toFixed(1);
  if (size === '0.0') return 'same light';
  return `${stops < 0 ? '−' : '+'}${size} stops`;
}

function percent(share: number): string {
  return `${Math.round(share * 100)} %`;
}

function decimal(value: number, decimals: number): string {
  return String(Number(value.toFixed(decimals)));
}
