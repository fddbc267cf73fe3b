import type { ReactNode } from 'react';
import { Group, Panel, Separator, useDefaultLayout } from 'react-resizable-panels';

interface PanesProps {
  /** Sizes are remembered under this name. */
  readonly name: string;
  readonly orientation: 'horizontal' | 'vertical';
  readonly panes: readonly Pane[];
}

export interface Pane {
  readonly id: string;
  /** In per cent of the whole to begin with, and the least in pixels. */
  readonly share: number;
  readonly least_px: number;
  readonly content: ReactNode;
}

/** Panes side by side or one over the other, with bars between them to drag or to move by the arrow keys. */
export function Panes({ name, orientation, panes }: PanesProps) {
  const { defaultLayout, onLayoutChanged } = useDefaultLayout({
    id: `keyfall.${name}`,
    panelIds: panes.map(({ id }) => id),
  });
  return (
    <Group
      className="panes"
      orientation={orientation}
      defaultLayout={defaultLayout}
      onLayoutChanged={onLayoutChanged}
    >
      {panes.flatMap(({ id, share, least_px, content }, i) => [
        ...(i === 0
          ? []
          : [
              <Separator
                key={`${id} bar`}
                className={`pane-bar ${orientation}`}
                aria-label={`Size of ${panes[i - 1]!.id} and ${id}`}
              />,
            ]),
        <Panel key={id} id={id} className="pane" defaultSize={`${share}%`} minSize={least_px}>
          {content}
        </Panel>,
      ])}
    </Group>
  );
}
