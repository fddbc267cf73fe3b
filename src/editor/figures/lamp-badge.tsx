import type { LampSign } from './lamp-colour.ts';
import '../styles/lamp-colours.css';

/** By the number of letters, so that they stay on the plate. */
const SIZES = [13, 10.5, 8];

/** A lamp's sign as a small plate: its initial, framed in its colour and pattern. */
export function LampBadge({ sign, size_px = 28 }: { readonly sign: LampSign; readonly size_px?: number }) {
  return (
    <svg className="lamp-badge" width={size_px} height={size_px} viewBox="0 0 28 28" aria-hidden="true">
      <rect
        className="lamp-badge-swatch"
        x={1}
        y={1}
        width={26}
        height={26}
        rx={4}
        style={{ fill: sign.fill }}
      />
      <rect className="lamp-badge-plate" x={6} y={6} width={16} height={16} rx={2} />
      <text x={14} y={18.5} fontSize={SIZES[Math.min(sign.initial.length, SIZES.length) - 1]}>
        {sign.initial}
      </text>
    </svg>
  );
}
