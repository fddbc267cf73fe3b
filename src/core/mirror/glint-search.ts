import type { LightModel } from '../light-model/light-model.ts';
import type { GlintView } from './glint.ts';

/** What a search for glints is about. */
export interface GlintSearch {
  readonly model: LightModel;
  readonly view: GlintView;
  readonly clip_stops: number;
  readonly least_cd_m2: number;
  readonly inFrameOnly: boolean;
  readonly withPatch: boolean;
}

/** Samples of a look at how bright a place is: enough to find it, not to report it. */
export const COARSE = 8;
