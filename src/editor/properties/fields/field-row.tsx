import type { ReactNode } from 'react';
import type { Path } from '../../../scene/problems/problem.ts';
import { useIsOfSetup } from '../desk.tsx';

interface FieldRowProps {
  readonly label: string;
  readonly path: Path;
  readonly help?: string | undefined;
  readonly beside?: string | undefined;
  /** A figure with or without a slider before it, a control that takes its place whole, or one under its label. */
  readonly layout?: 'slide' | 'figure' | 'control' | 'wide';
  readonly children: ReactNode;
}

/** One line of the properties: what it is, and what it is set to. Its help is told at the foot of the panel. */
export function FieldRow({ label, path, help, beside, layout = 'control', children }: FieldRowProps) {
  const ofSetup = useIsOfSetup(path);
  return (
    <div className={`field ${layout}`} data-help={help}>
      <span className="field-label">
        <span>{label}</span>
        {ofSetup && (
          <span className="of-setup" title="This setup’s own">
            in this setup
          </span>
        )}
        {beside && <span className="quiet field-beside">{beside}</span>}
      </span>
      {children}
    </div>
  );
}
