import type { ReactNode } from 'react';

/** What follows from what is set: words and figures that cannot be typed. */
export function Facts({
  stale = false,
  children,
}: {
  readonly stale?: boolean;
  readonly children: ReactNode;
}) {
  return <dl className={stale ? 'facts stale' : 'facts'}>{children}</dl>;
}

interface FactProps {
  readonly name: string;
  /** Convention or uncertainty. */
  readonly note?: string | undefined;
  /** Worked out for another state of the scene. */
  readonly stale?: boolean;
  readonly children: ReactNode;
}

export function Fact({ name, note, stale = false, children }: FactProps) {
  return (
    <div className={stale ? 'fact stale' : 'fact'}>
      <dt>{name}</dt>
      <dd>
        {children}
        {note && <span className="quiet fact-note">{note}</span>}
      </dd>
    </div>
  );
}

export function Caution({ children }: { readonly children: ReactNode }) {
  return <p className="note caution">{children}</p>;
}
