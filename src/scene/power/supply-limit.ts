import { GENERATOR_LOADING } from '../../core/electrical/generator.ts';
import { continuousLimit_A, current_A, threePhaseCurrent_A } from '../../core/electrical/load.ts';
import type { Supply } from '../schema/supply.ts';

/** The current that each phase of a supply may carry for hours, and what sets it. */
export interface SupplyLimit {
  readonly limit_A: number;
  readonly setBy: 'breaker' | 'rating';
}

/** The lesser of breaker and rating, or null where the document gives neither. */
export function limitOf(supply: Supply): SupplyLimit | null {
  const limits: SupplyLimit[] = [];
  if (supply.breaker_A !== undefined)
    limits.push({ limit_A: continuousLimit_A(supply.breaker_A, supply.continuous), setBy: 'breaker' });
  if (supply.rating_kVA !== undefined) {
    const loading = supply.kind === 'generator' ? GENERATOR_LOADING : 1;
    const usable_VA = loading * supply.rating_kVA * 1000;
    const limit_A =
      supply.phases === 3
        ? threePhaseCurrent_A(usable_VA, Math.sqrt(3) * supply.volts)
        : current_A(usable_VA, supply.volts);
    limits.push({ limit_A, setBy: 'rating' });
  }
  return limits.sort((a, b) => a.limit_A - b.limit_A)[0] ?? null;
}
