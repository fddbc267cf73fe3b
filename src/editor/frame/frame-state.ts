import { createStore } from 'zustand/vanilla';
import type { Problem } from '../../scene/problems/problem.ts';
import type { FrameCamera, SpotAnswer } from './frame-desk.ts';

/** What the frame is shown as. */
export const LOOKS = ['picture', 'stops', 'monochrome', 'luminance', 'normals', 'things'] as const;
export type Look = (typeof LOOKS)[number];

/** Lines over the frame: none, thirds, the parts that are safe for action (93 %) and titles (90 %), or both. */
export const LINES = ['none', 'thirds', 'safe', 'both'] as const;
export type Lines = (typeof LINES)[number];

/** How far the frame has come. */
export interface FrameProgress {
  /** Samples a pixel. */
  readonly samples: number;
  /** Median relative standard error of a pixel; NaN while unknown. */
  readonly noise: number;
  readonly width_px: number;
  readonly height_px: number;
  readonly stage: 'building' | 'sampling' | 'rests';
}

/** A frame that was kept to compare with. */
export interface ReferenceFrame {
  readonly url: string;
  readonly words: string;
}

/** Where the spot meter looks, 0 to 1 from the left and the top, and what it reads; null while it is reading. */
export interface Spot {
  readonly u: number;
  readonly v: number;
  readonly answer: SpotAnswer | null;
}

export interface FrameState {
  readonly look: Look;
  readonly marksEnds: boolean;
  /** Grain is smoothed for the eye. */
  readonly smoothed: boolean;
  readonly lines: Lines;
  readonly paused: boolean;
  /** The dialog that writes it to a file is open. */
  readonly exporting: boolean;
  /** Held while the scene went on: the frame is of the scene as it was. */
  readonly behind: boolean;
  readonly camera: FrameCamera | null;
  /** Ids, by place in the light model. */
  readonly lamps: readonly string[];
  readonly things: readonly string[];
  readonly limits: readonly string[];
  readonly problems: readonly Problem[];
  readonly progress: FrameProgress | null;
  /** The frame that the processor makes while the graphics card is not ready yet; null when it is not needed. */
  readonly standIn: FrameProgress | null;
  /** How large the picture is on the screen, CSS pixels. */
  readonly onScreen: { readonly width: number; readonly height: number } | null;
  /** Whence the graphics card is driven: a worker, or the page where the browser has no graphics in workers. */
  readonly cardDrawsIn: 'worker' | 'page';
  /** By the graphics card, or by the processor where there is none that can: then why. */
  readonly withoutGraphics: string | null;
  /** What kept the frame from being made, in words. */
  readonly failure: string | null;
  readonly spot: Spot | null;
  /** The frame as it is shown, as the address of a picture, or null; null itself while there is none to take. */
  readonly grab: (() => Promise<string | null>) | null;
  readonly reference: ReferenceFrame | null;
  /** Where the reference ends and the frame begins, 0 to 1 from the left. */
  readonly wipe: number;
}

export const INITIAL_FRAME: FrameState = {
  look: 'picture',
  marksEnds: false,
  smoothed: true,
  lines: 'none',
  paused: false,
  exporting: false,
  behind: false,
  camera: null,
  lamps: [],
  things: [],
  limits: [],
  problems: [],
  progress: null,
  standIn: null,
  onScreen: null,
  cardDrawsIn: 'worker',
  withoutGraphics: null,
  failure: null,
  spot: null,
  grab: null,
  reference: null,
  wipe: 0.5,
};

export const createFrameStore = () => createStore<FrameState>(() => INITIAL_FRAME);
export type FrameStore = ReturnType<typeof createFrameStore>;
