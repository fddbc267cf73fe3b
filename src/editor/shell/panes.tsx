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
  /** To begin with, in per cent of the whole or in pixels; what the others leave where there is none. The least in pixels. */
  readonly size?: string;
  readonly least_px: number;
  /** When the page changes its size, this one keeps its own. */
  readonly keepsPixels?: boolean;
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
      {panes.flatMap(({ id, size, least_px, keepsPixels, content }, i) => [
        ...(i === 0
          ? []
          : [
              <Separator
                key={`${id} bar`}
                className={`pane-bar ${orientation}`}
                aria-label={`Size of ${panes[i - 1]!.id} and ${id}`}
              />,
            ]),
        <Panel
          key={id}
          id={id}
          className="pane"
          defaultSize={size}
          minSize={least_px}
          groupResizeBehavior={keepsPixels ? 'preserve-pixel-size' : 'preserve-relative-size'}
        >
          {content}
        </Panel>,
      ])}
    </Group>
  );
}
