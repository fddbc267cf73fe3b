import type { IlluminanceUnit } from '../../paperwork/exposure-sheet.ts';

const UNITS: readonly { readonly unit: IlluminanceUnit; readonly name: string }[] = [
  { unit: 'lx', name: 'lux' },
  { unit: 'fc', name: 'foot-candles' },
];

export function UnitChoice({
  unit,
  onChange,
}: {
  readonly unit: IlluminanceUnit;
  readonly onChange: (unit: IlluminanceUnit) => void;
}) {
  return (
    <fieldset className="unit-choice">
      <legend className="out-of-sight">Unit of illuminance</legend>
      {UNITS.map((entry) => (
        <label key={entry.unit}>
          <input
            type="radio"
            name="unit"
            checked={entry.unit === unit}
            onChange={() => onChange(entry.unit)}
          />
          <span>{entry.name}</span>
        </label>
      ))}
    </fieldset>
  );
}
