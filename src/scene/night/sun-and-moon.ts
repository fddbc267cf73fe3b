import { Body, Equator, Horizon, Illumination, MoonPhase, type Observer } from 'astronomy-engine';
import { moonIlluminance_lx } from '../../core/sky/moon-illuminance.ts';
import { NIGHT_SKY_lx } from '../../core/sky/night-sky.ts';
import { sunIlluminance_lx } from '../../core/sky/sun-illuminance.ts';

const KM_PER_AU = 149_597_870.7;

/** Where a body stands. Altitudes are of its centre, without refraction, as twilight is defined. */
export interface Standing {
  readonly altitude_deg: number;
  /** From north over east. */
  readonly azimuth_deg: number;
}

/** Sky and its light at an instant. */
export interface SkyState {
  readonly sun: Standing;
  readonly moon: Standing;
  /** Level, open ground, clear sky, no town: sun and sunlit sky, moon, stars and airglow. */
  readonly sun_lx: number;
  readonly moon_lx: number;
  readonly stars_lx: number;
  readonly total_lx: number;
}

export function skyState(place: Observer, ut_days: number): SkyState {
  const sun = standing(place, Body.Sun, ut_days);
  const moon = standing(place, Body.Moon, ut_days);
  const { phase_angle } = Illumination(Body.Moon, ut_days);
  const sun_lx = sunIlluminance_lx(sun.altitude_deg);
  const moon_lx = moonIlluminance_lx(moon.altitude_deg, phase_angle, moon.distance_km);
  return {
    sun: { altitude_deg: sun.altitude_deg, azimuth_deg: sun.azimuth_deg },
    moon: { altitude_deg: moon.altitude_deg, azimuth_deg: moon.azimuth_deg },
    sun_lx,
    moon_lx,
    stars_lx: NIGHT_SKY_lx,
    total_lx: sun_lx + moon_lx + NIGHT_SKY_lx,
  };
}

function standing(place: Observer, body: Body, ut_days: number): Standing & { readonly distance_km: number } {
  const { ra, dec, dist } = Equator(body, ut_days, place, true, true);
  const { altitude, azimuth } = Horizon(ut_days, place, ra, dec);
  return { altitude_deg: altitude, azimuth_deg: azimuth, distance_km: dist * KM_PER_AU };
}

export interface Moon {
  /** Elongation: 0 new, 90 first quarter, 180 full, 270 last quarter. */
  readonly phase_deg: number;
  readonly phase: MoonPhaseName;
  /** Lit share of its disc. */
  readonly lit: number;
}

export type MoonPhaseName =
  | 'new moon'
  | 'waxing crescent'
  | 'first quarter'
  | 'waxing gibbous'
  | 'full moon'
  | 'waning gibbous'
  | 'last quarter'
  | 'waning crescent';

const PHASES: readonly MoonPhaseName[] = [
  'new moon',
  'waxing crescent',
  'first quarter',
  'waxing gibbous',
  'full moon',
  'waning gibbous',
  'last quarter',
  'waning crescent',
];
/** Half a day to either side of the quarters bears their name: the moon goes 12.2° a day. */
const NEAR_QUARTER_deg = 6.1;

export function moonAt(ut_days: number): Moon {
  const phase_deg = MoonPhase(ut_days);
  const quarter = Math.round(phase_deg / 90);
  const near = Math.abs(phase_deg - 90 * quarter) <= NEAR_QUARTER_deg;
  const index = near ? (2 * quarter) % 8 : 2 * Math.floor(phase_deg / 90) + 1;
  return { phase_deg, phase: PHASES[index]!, lit: Illumination(Body.Moon, ut_days).phase_fraction };
}
