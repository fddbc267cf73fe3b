import type { LensReport } from '../../scene/framing/lens-report.ts';
import type { SharpRegion } from '../../scene/framing/sharp-region.ts';
import type { MeterReport } from '../../scene/meter/meter-scene.ts';
import type { GlintCures } from '../../scene/mirror/cures/cures.ts';
import type { GlintReport } from '../../scene/mirror/find-scene-glints.ts';
import type { PowerReport } from '../../scene/power/power-scene.ts';
import type { ReadingsReport } from '../../scene/readings/readings-report.ts';
import type { RiggingReport } from '../../scene/rigging/rigging-scene.ts';
import type { Monochrome } from '../../scene/schema/camera.ts';
import type { ConversionRow } from '../../scene/separation/conversions.ts';
import type { SeparationReport } from '../../scene/separation/separation-report.ts';
import type { WardrobeRow } from '../../scene/separation/wardrobe.ts';
import type { WalkReport } from '../../scene/walk/walk-report.ts';
import type { FigureOutline } from './answer-outlines.ts';
import type { SkyCurve } from './answer-sky-curve.ts';

/** What may be asked of a scene beside its readings: how it is asked, and what the answer is. */
export interface AnswerKinds {
  readonly glints: {
    /** Without cures the answer is there several times sooner. */
    readonly asked: { readonly cures: boolean };
    /** Cures are null where they were not asked for, or are still being looked for. */
    readonly answer: { readonly report: GlintReport; readonly cures: readonly GlintCures[] | null };
  };
  readonly separation: {
    /** The camera's own conversion when left out; null for colour. */
    readonly asked: { readonly monochrome?: Monochrome | null | undefined };
    readonly answer: {
      readonly report: SeparationReport;
      readonly conversions: ReadonlyMap<string, readonly ConversionRow[]>;
      readonly outlines: readonly FigureOutline[];
    };
  };
  readonly wardrobe: {
    /** Null: nobody is to be dressed. */
    readonly asked: {
      readonly figure: string | null;
      readonly monochrome?: Monochrome | null | undefined;
    };
    readonly answer: { readonly figure: string; readonly rows: readonly WardrobeRow[] } | null;
  };
  readonly power: {
    readonly asked: {
      readonly hours?: number | undefined;
      readonly fuel_L_per_kWh?: number | undefined;
      readonly limit_percent?: number | undefined;
      readonly temperature_C?: number | undefined;
      /** Readings of the same scene, for what is lost with a lamp. */
      readonly metered?: MeterReport | undefined;
    };
    readonly answer: PowerReport;
  };
  readonly lens: {
    readonly asked: {
      readonly rate_fps?: number | undefined;
      readonly frameWidth_px?: number | undefined;
    };
    readonly answer: LensReport;
  };
  /** Where in the frame it is sharp. */
  readonly focus: {
    readonly asked: Readonly<Record<string, never>>;
    readonly answer: SharpRegion;
  };
  readonly night: {
    readonly asked: { readonly under_stops?: number | undefined };
    readonly answer: SkyCurve;
  };
  readonly walk: {
    /** The first path that someone walks when left out. */
    readonly asked: { readonly path?: string | undefined; readonly rate_fps?: number | undefined };
    readonly answer: WalkReport;
  };
  readonly stands: {
    /** The site's own wind when left out. */
    readonly asked: { readonly wind_m_s?: number | undefined };
    readonly answer: RiggingReport;
  };
  readonly readings: {
    readonly asked: Readonly<Record<string, never>>;
    readonly answer: ReadingsReport;
  };
}

export type AnswerKind = keyof AnswerKinds;
export type AskedOf<K extends AnswerKind> = AnswerKinds[K]['asked'];
export type AnswerOf<K extends AnswerKind> = AnswerKinds[K]['answer'];
