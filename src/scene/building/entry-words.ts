import { luminanceOfRgb } from '../../core/picture/linear-rgb.ts';
import type { Filter } from '../schema/filter.ts';
import type { Head } from '../schema/head.ts';
import type { Material, Pane } from '../schema/material.ts';
import { peakOf_cd } from './lamp-job.ts';

/**
 * A head in a line: "22 000 cd, 30° beam, LED 5600 K, 165 W". Candela as the document states them or as they follow from it.
 */
export function headWords(head: Head): string {
  const { photometry, spectrum, electrical } = head;
  const peak_cd = peakOf_cd(head);
  return [
    peak_cd === null ? 'photometric file' : `${grouped(peak_cd)} cd`,
    ...('beam_deg' in photometry ? [`${photometry.beam_deg}° beam`] : []),
    ...(photometry.kind === 'diffuse' ? ['all round its front'] : []),
    'cct_K' in spectrum ? `${spectrum.cct_K} K` : 'own spectrum',
    ...(electrical ? [`${electrical.input_W} W`] : []),
  ].join(', ');
}

/** To three figures, thousands apart: candela are not known better. */
function grouped(value: number): string {
  const rounded = Number(value.toPrecision(3));
  return String(rounded).replace(/\B(?=(\d{3})+$)/g, '\u202f');
}

/** A material in a line: "reflects 6 %, wet gloss". */
export function materialWords({ reflectance, metal, roughness, coatIor }: Material): string {
  const finish =
    coatIor === undefined ? 'matt' : (roughness ?? 0.5) <= 0.15 ? 'under a gloss coat' : 'under a dull coat';
  if (metal !== undefined) return `bare metal, ${(roughness ?? 0.5) <= 0.15 ? 'polished' : 'brushed'}`;
  if (typeof reflectance === 'string') return `reflects as the spectrum ${reflectance}, ${finish}`;
  const share = typeof reflectance === 'number' ? reflectance : luminanceOfRgb(reflectance!);
  return `reflects ${Number((100 * share).toPrecision(2))} %, ${finish}`;
}

/** A pane in a line: "45 % straight on, 25 % scattered". */
export function paneWords({ direct, scattered = 0 }: Pane): string {
  const percent = (share: number) => `${Number((100 * share).toFixed(1))} %`;
  return `${percent(direct)} straight on, ${scattered > 0 ? `${percent(scattered)} scattered` : 'nothing scattered'}`;
}

/** A filter in a line. What it costs depends on the lamp, and stands with the lamp. */
export function filterWords(filter: Filter): string {
  switch (filter.kind) {
    case 'conversion':
      return `${filter.shift_mired > 0 ? '+' : '−'}${Math.abs(filter.shift_mired)} mired, ${filter.shift_mired > 0 ? 'warmer' : 'cooler'}`;
    case 'green':
      return `${filter.density > 0 ? 'plus' : 'minus'} green, density ${Math.abs(filter.density)}`;
    case 'colour':
      return 'colour gel';
    case 'diffusion':
      return `diffusion, passes ${Math.round(100 * filter.transmission)} %, spreads to ${filter.spread_deg}°`;
    case 'neutral':
    case 'net':
      return `takes ${filter.stops} ${filter.stops === 1 ? 'stop' : 'stops'}`;
    case 'table':
      return 'measured transmittance';
  }
}
