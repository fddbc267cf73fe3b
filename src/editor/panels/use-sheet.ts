import { useMemo } from 'react';
import { type ExposureSheet, exposureSheet } from '../../paperwork/exposure-sheet.ts';
import type { MeterReport } from '../../scene/meter/meter-scene.ts';
import { useEditor } from '../store/use-editor.ts';

/** The exposure sheet of the last reading, in the chosen unit; null where there is none. */
export function useSheet(): { readonly sheet: ExposureSheet; readonly report: MeterReport } | null {
  const report = useEditor((state) => state.reading?.report ?? null);
  const unit = useEditor((state) => state.unit);
  return useMemo(() => report && { sheet: exposureSheet(report, unit), report }, [report, unit]);
}
