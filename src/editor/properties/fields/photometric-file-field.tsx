import { useDesk, useFieldValue } from '../desk.tsx';
import type { SpecialProps } from '../field.ts';
import { limitsOf } from '../schema-limits.ts';
import { FieldRow } from './field-row.tsx';
import { TextRow } from './text-row.tsx';
import { TypedFigure } from './typed-figure.tsx';

/** A photometric file: its name, whether the scene has its text, and which of several lamps in it. */
export function PhotometricFileField({ field, at }: SpecialProps) {
  const desk = useDesk();
  const text = useFieldValue([...at, 'text']);
  const setPath = [...at, 'lampSet'];
  const lampSet = useFieldValue(setPath);
  return (
    <>
      <TextRow
        field={{
          as: 'text',
          path: ['file'],
          label: field.label,
          ...(field.help ? { help: field.help } : {}),
        }}
        at={[...at, 'file']}
      />
      <p className="quiet field-note">
        {typeof text === 'string'
          ? `Its text is inside the scene, ${Math.ceil(text.length / 1000)} kB.`
          : 'Its text is not inside the scene: open it together with the scene, or drop it on the page.'}
      </p>
      <FieldRow
        label="Lamp set"
        path={setPath}
        help="Which of several lamps in a EULUMDAT file, 0 the first."
        layout="figure"
      >
        <TypedFigure
          label="Lamp set"
          quantity="number"
          value={typeof lampSet === 'number' ? lampSet : undefined}
          placeholder="0"
          limits={limitsOf(desk.kind, setPath)!}
          step={1}
          onChange={(typed) => desk.set(setPath, typed)}
        />
      </FieldRow>
    </>
  );
}
