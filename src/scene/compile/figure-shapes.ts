import { type FigureSpec, figureParts } from '../../core/geometry/figure.ts';
import type { Part } from '../../core/geometry/shape.ts';
import type { Figure } from '../schema/figure.ts';
import type { Palette } from './palette.ts';

const DEFAULT_HEIGHT_m = 1.7;
const DEFAULT_SUBSTANCES = { skin: 'skin-mid', upper: 'wool-grey', lower: 'wool-dark' } as const;

/** The exact shapes of a figure, in skin and clothes. */
export function figureShapes(figure: Figure, owner: number, palette: Palette): Part[] {
  return figureParts(figureSpec(figure)).map(({ shape, role }) => ({
    shape,
    substance: { kind: 'material', index: palette.surface(figure[role] ?? DEFAULT_SUBSTANCES[role]) },
    owner,
  }));
}

/** A figure of the document with its defaults. */
export function figureSpec(figure: Figure): FigureSpec {
  return {
    position_m: figure.position_m,
    heading_deg: figure.heading_deg ?? 0,
    pose: figure.pose ?? 'standing',
    height_m: figure.height_m ?? DEFAULT_HEIGHT_m,
  };
}
