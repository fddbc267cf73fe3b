import { readingFreshness } from '../store/shown-scene.ts';
import { useEditor } from '../store/use-editor.ts';
import { LampParts } from './lamp-parts.tsx';
import { useSheet } from './use-sheet.ts';

/** What the chosen reading is made of, and what all of them go by. */
export function ReadingParts() {
  const freshness = useEditor(readingFreshness);
  const shown = useSheet();
  if (!shown) return null;
  return (
    <section className="panel reading-parts" aria-label="Parts and conventions">
      {shown.sheet.rows.length > 0 && (
        <div className={`figures ${freshness}`}>
          <LampParts {...shown} />
        </div>
      )}
      <ul className="conventions">
        {shown.sheet.footer.map((sentence) => (
          <li key={sentence}>{sentence}</li>
        ))}
      </ul>
    </section>
  );
}
