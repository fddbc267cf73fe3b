import { LIBRARY } from '../../../scene/library/library.ts';
import { useDesk, useFieldValue } from '../desk.tsx';
import type { SpecialProps } from '../field.ts';
import { FieldRow } from './field-row.tsx';
import { VectorRow } from './vector-row.tsx';

/** The sensor's size: a format by its name, or any figures. */
export function SensorField({ field, at }: SpecialProps) {
  const desk = useDesk();
  const value = useFieldValue(at);
  const formats = Object.entries(LIBRARY.sensors);
  const named = formats.find(([, { sensor_mm }]) => JSON.stringify(sensor_mm) === JSON.stringify(value));
  return (
    <>
      <FieldRow label={field.label} path={at} help={field.help}>
        <select
          aria-label={field.label}
          value={named?.[0] ?? ''}
          onChange={({ target }) => desk.set(at, LIBRARY.sensors[target.value]?.sensor_mm)}
        >
          {!named && (
            <option value="" disabled>
              of its own size
            </option>
          )}
          {formats.map(([id, { name, sensor_mm }]) => (
            <option key={id} value={id}>
              {name}, {sensor_mm.join(' × ')} mm
            </option>
          ))}
        </select>
      </FieldRow>
      <VectorRow
        field={{
          as: 'vector',
          path: [],
          label: 'Sensor size',
          quantity: 'millimetre',
          step: 0.1,
          parts: ['wide', 'high'],
        }}
        at={at}
      />
    </>
  );
}
