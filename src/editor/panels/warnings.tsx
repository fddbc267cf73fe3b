import { useEditor } from '../store/use-editor.ts';
import { ProblemList } from './problem-list.tsx';

/** What is allowed in the opened file but is most likely a slip. */
export function Warnings() {
  const warnings = useEditor((state) => state.warnings);
  if (warnings.length === 0) return null;
  return (
    <details className="panel warnings">
      <summary>
        {warnings.length === 1 ? 'One thing to check' : `${warnings.length} things to check`} in this file
      </summary>
      <ProblemList problems={warnings} />
    </details>
  );
}
