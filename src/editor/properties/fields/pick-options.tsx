import type { Referent } from '../../../scene/references/reference-fields.ts';
import type { Filter } from '../../../scene/schema/filter.ts';
import type { Head, LampSpectrum } from '../../../scene/schema/head.ts';
import type { Material } from '../../../scene/schema/material.ts';
import type { Supply } from '../../../scene/schema/supply.ts';
import { filterCost, kelvinText, lossText } from '../costs/filter-cost.ts';
import { photometryWords } from '../costs/photometry-words.ts';
import { filterHex, materialHex } from '../costs/swatch-colour.ts';
import type { NamedThing } from '../named-things.ts';
import type { PickOption } from './pick.tsx';
import { Swatch } from './swatch.tsx';

/** What may be named, each with what tells it from the others. */
export function pickOptions(things: readonly NamedThing[], to: Referent, lamp?: LampSpectrum): PickOption[] {
  return things.map((thing) => ({
    value: thing.id,
    name: thing.name,
    swatch: swatchOf(thing, to),
    note: noteOf(thing, to, lamp),
  }));
}

export function swatchOf({ entry }: NamedThing, to: Referent) {
  if (to === 'materials') return <Swatch hex={materialHex(entry as Material)} />;
  if (to === 'filters') return <Swatch hex={filterHex(entry as Filter)} />;
  return undefined;
}

function noteOf({ entry }: NamedThing, to: Referent, lamp: LampSpectrum | undefined): string | undefined {
  switch (to) {
    case 'filters': {
      const filter = entry as Filter;
      if (!lamp) return undefined;
      const { loss_stops, cct_K } = filterCost(lamp, [filter]);
      const coloured = filter.kind !== 'diffusion' && filter.kind !== 'neutral' && filter.kind !== 'net';
      return coloured ? `${lossText(loss_stops)}, ${kelvinText(cct_K)}` : lossText(loss_stops);
    }
    case 'heads':
      return photometryWords(entry as Head);
    case 'supplies':
      return supplyNote(entry as Supply);
    default:
      return undefined;
  }
}

function supplyNote({ volts, breaker_A, rating_kVA }: Supply): string {
  const size =
    breaker_A !== undefined ? `${breaker_A} A` : rating_kVA !== undefined ? `${rating_kVA} kVA` : '';
  return [`${volts} V`, size].filter(Boolean).join(', ');
}
