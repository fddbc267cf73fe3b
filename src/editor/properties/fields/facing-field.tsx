import { MIXED, useDesk, useFieldValue } from '../desk.tsx';
import type { SpecialProps } from '../field.ts';
import { useThingsNamed } from '../use-things-named.ts';
import { FieldRow } from './field-row.tsx';
import { VectorRow } from './vector-row.tsx';

const LAMP = 'lamp:';
const ALONG = 'along';
const TO_CAMERA_SIDE: readonly [number, number, number] = [0, 0, 1];

/** Which way the receptor points: to the camera, to a lamp, or along a direction. */
export function FacingField({ field, at }: SpecialProps) {
  const desk = useDesk();
  const value = useFieldValue(at);
  const lamps = useThingsNamed('lamps');
  const chosen =
    value === undefined ? 'camera' : Array.isArray(value) ? ALONG : value === MIXED ? '' : String(value);
  return (
    <>
      <FieldRow label={field.label} path={at} help={field.help}>
        <select
          aria-label={field.label}
          value={chosen}
          onChange={({ target }) => desk.set(at, target.value === ALONG ? TO_CAMERA_SIDE : target.value)}
        >
          {chosen === '' && <option value="">several</option>}
          <option value="camera">The camera</option>
          {lamps.map(({ id, name }) => (
            <option key={id} value={LAMP + id}>
              {name}
            </option>
          ))}
          <option value={ALONG}>A direction</option>
        </select>
      </FieldRow>
      {chosen === ALONG && (
        <VectorRow
          field={{
            as: 'vector',
            path: [],
            label: 'Direction',
            quantity: 'number',
            step: 0.1,
            parts: ['x', 'y', 'z'],
            help: 'Only its direction counts: 0, 1, 0 is straight up.',
          }}
          at={at}
        />
      )}
    </>
  );
}
