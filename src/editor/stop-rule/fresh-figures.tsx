import type { ReactNode } from 'react';
import { readingFreshness } from '../store/shown-scene.ts';
import { useEditor } from '../store/use-editor.ts';

/** Shows of what is in it how much it is worth. By itself, so that figures that turn stale are not drawn anew for that. */
export function FreshFigures({
  className = '',
  children,
}: {
  readonly className?: string;
  readonly children: ReactNode;
}) {
  const freshness = useEditor(readingFreshness);
  return (
    <div className={`figures ${freshness} ${className}`} data-state={freshness}>
      {children}
    </div>
  );
}
