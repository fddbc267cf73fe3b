import type { Geometry } from '../geometry/geometry.ts';
import { transmittance } from '../geometry/ray-query.ts';
import type { LightModel } from '../light-model/light-model.ts';
import { kroneckerU, kroneckerV } from '../math/kronecker.ts';
import { skyThroughHaze } from './haze-regions.ts';
import { emitterOf, newLampSight, seeLamp } from './lamp-sight.ts';
import { domeResponse, flatResponse, type Receptor } from './receptor.ts';
import { clearance_m, type MeterPoint } from './source-sample.ts';

/**
 * Straight light of one source at a meter as a fixed set of rays with what each brings, so that a body that moves about can
 * be put in their way again and again without asking the whole scene each time. Rays that the scene blocks are left out.
 */
export interface ArrivingRays {
  /** Four numbers a ray: unit direction to the source, and how far it is. */
  readonly lines: Float64Array;
  readonly lx: Float64Array;
  readonly total_lx: number;
}

const FAR_m = 1e5;

export function lampRays(
  model: LightModel,
  lamp: number,
  meter: MeterPoint,
  receptor: Receptor,
  count: number,
): ArrivingRays {
  const [px, py, pz] = meter.position_m;
  const sight = newLampSight();
  const emitter = emitterOf(model.lamps[lamp]!);
  return gather(model, meter, receptor, count, (i, put) => {
    seeLamp(emitter, model.haze, px, py, pz, kroneckerU(i, 0), kroneckerV(i, 0), sight);
    put(sight.wx, sight.wy, sight.wz, sight.d_m, sight.normal_lx / count);
  });
}

/** Of the uniform sky. */
export function skyRays(
  model: LightModel,
  meter: MeterPoint,
  receptor: Receptor,
  count: number,
): ArrivingRays {
  const each_lx = (2 * (model.sky?.illuminance_lx ?? 0)) / count;
  return gather(model, meter, receptor, count, (i, put) => {
    const y = kroneckerU(i, 0);
    const turn = 2 * Math.PI * kroneckerV(i, 0);
    const level = Math.sqrt(1 - y * y);
    const [x, z] = [level * Math.cos(turn), level * Math.sin(turn)];
    put(x, y, z, FAR_m, each_lx * skyThroughHaze(model, ...meter.position_m, x, y, z));
  });
}

type Put = (wx: number, wy: number, wz: number, d_m: number, normal_lx: number) => void;

function gather(
  model: LightModel,
  { position_m: [px, py, pz], facing }: MeterPoint,
  receptor: Receptor,
  count: number,
  ray: (i: number, put: Put) => void,
): ArrivingRays {
  const lines: number[] = [];
  const lx: number[] = [];
  const respond = receptor === 'flat' ? flatResponse : domeResponse;
  const put: Put = (wx, wy, wz, d_m, normal_lx) => {
    const weighed = normal_lx * respond(wx * facing[0] + wy * facing[1] + wz * facing[2]);
    if (weighed <= 0) return;
    const clear = clearance_m(d_m);
    const { geometry, paneDirect } = model;
    const through = transmittance(geometry, px, py, pz, wx, wy, wz, clear, d_m - clear, paneDirect);
    if (through <= 0) return;
    lines.push(wx, wy, wz, d_m);
    lx.push(weighed * through);
  };
  for (let i = 0; i < count; i++) ray(i, put);
  return {
    lines: Float64Array.from(lines),
    lx: Float64Array.from(lx),
    total_lx: lx.reduce((sum, part) => sum + part, 0),
  };
}

const NO_PANES = new Float64Array(0);

/** What of it an opaque body takes away. */
export function takenBy_lx(
  body: Geometry,
  { lines, lx }: ArrivingRays,
  { position_m: [px, py, pz] }: MeterPoint,
): number {
  let taken = 0;
  for (let i = 0; i < lx.length; i++) {
    const at = 4 * i;
    const open = transmittance(
      body,
      px,
      py,
      pz,
      lines[at]!,
      lines[at + 1]!,
      lines[at + 2]!,
      0,
      lines[at + 3]!,
      NO_PANES,
    );
    if (open === 0) taken += lx[i]!;
  }
  return taken;
}
