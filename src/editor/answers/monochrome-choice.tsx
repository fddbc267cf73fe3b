import { CONTRAST_FILTERS } from '../../core/monochrome/contrast-filter.ts';
import { separationSheet } from '../../paperwork/separation-sheet.ts';
import { monochromeWords, PLAIN } from '../../scene/monochrome/monochrome.ts';
import type { Monochrome } from '../../scene/schema/camera.ts';
import { edit } from '../store/edits.ts';
import { cameraShown, documentShown } from '../store/shown-scene.ts';
import { useEditor, useEditorStore } from '../store/use-editor.ts';
import type { AnswerOf } from '../worker/answer-kinds.ts';
import { ChannelWeights } from './channel-weights.tsx';
import { Findings } from './findings.tsx';
import { SheetRows } from './sheet-rows.tsx';

const SKIN_MIX: Monochrome = { weights: [0.8, 0.2, 0] };
const CHOICES: readonly Monochrome[] = [
  PLAIN,
  ...CONTRAST_FILTERS.map((filter): Monochrome => ({ filter })),
  SKIN_MIX,
];

/** Monochrome conversions, how each figure separates in them, and a way to set one on the camera. */
export function MonochromeChoice({ found }: { readonly found: AnswerOf<'separation'> }) {
  const store = useEditorStore();
  const camera = useEditor((state) => {
    const id = cameraShown(state)?.id;
    return documentShown(state)?.cameras?.find((one) => one.id === id);
  });
  const { report, conversions } = found;
  const without = separationSheet(report);
  const sheet = separationSheet(report, { conversions });
  const tables = sheet.tables.slice(without.tables.length);
  const seen = [...conversions].filter(([, rows]) => rows.length > 0);
  const now = camera?.monochrome ? monochromeWords(camera.monochrome) : null;
  const set = (monochrome: Monochrome | null, words: string) => {
    if (camera) edit(store, { do: 'change', id: camera.id, patch: { monochrome } }, `Camera in ${words}`);
  };
  return (
    <details className="answer-part">
      <summary>Monochrome: {now ?? 'the camera is in colour'}</summary>
      <Findings
        sentences={sheet.findings.slice(without.findings.length)}
        label="What separates best in monochrome"
      />
      {now !== null && (
        <button type="button" onClick={() => set(null, 'colour')}>
          Back to colour
        </button>
      )}
      {tables.map(({ rows, leftColumns }, table) => (
        <SheetRows
          key={seen[table]![0]}
          caption={rows[0]![0]!}
          rows={rows}
          leftColumns={leftColumns}
          action={(row) => {
            const words = seen[table]![1][row]!.conversion;
            const choice = CHOICES.find((one) => monochromeWords(one) === words);
            if (words === now) return <span className="tag">set</span>;
            return (
              choice && (
                <button
                  type="button"
                  aria-label={`Set ${words} on the camera`}
                  onClick={() => set(choice, words)}
                >
                  Set
                </button>
              )
            );
          }}
        />
      ))}
      <ChannelWeights
        start={camera?.monochrome?.weights ?? PLAIN.weights!}
        onSet={(weights) => set({ weights }, monochromeWords({ weights }))}
      />
    </details>
  );
}
