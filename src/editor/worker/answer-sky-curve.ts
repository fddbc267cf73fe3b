import { Observer } from 'astronomy-engine';
import { parseInstant } from '../../scene/night/instant.ts';
import { type NightReport, type NightRequest, nightReport } from '../../scene/night/night-report.ts';
import { skyState } from '../../scene/night/sun-and-moon.ts';
import type { SceneDocument } from '../../scene/schema/document.ts';

/** The night's report, and where sun and moon stand all through it, for a chart. */
export interface SkyCurve {
  readonly report: NightReport;
  readonly curve: readonly SkyPoint[];
}

export interface SkyPoint {
  /** From the noon before; altitudes are of the centre, without refraction. */
  readonly sinceNoon_h: number;
  readonly sun_deg: number;
  readonly moon_deg: number;
}

/** A quarter of an hour is under four degrees of the sky: a smooth line. */
const EVERY_h = 0.25;

/** @throws SceneError where the scene says no place */
export function skyCurve(document: SceneDocument, request: NightRequest): SkyCurve {
  const report = nightReport(document, request);
  const observer = new Observer(report.latitude_deg, report.longitude_deg, 0);
  const from = parseInstant(report.fromNoon).ut_days;
  const hours = 24 * (parseInstant(report.toNoon).ut_days - from);
  const steps = Math.ceil(hours / EVERY_h);
  const curve = Array.from({ length: steps + 1 }, (_, i) => {
    const sinceNoon_h = Math.min(hours, i * EVERY_h);
    const { sun, moon } = skyState(observer, from + sinceNoon_h / 24);
    return { sinceNoon_h, sun_deg: sun.altitude_deg, moon_deg: moon.altitude_deg };
  });
  return { report, curve };
}
