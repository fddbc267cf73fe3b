interface SwatchProps {
  /** As the frame would draw it, #rrggbb. */
  readonly hex: string | null;
}

/** A patch of colour beside the words that say the same: never the only sign of anything. */
export function Swatch({ hex }: SwatchProps) {
  return <span className="swatch" aria-hidden="true" style={hex ? { background: hex } : undefined} />;
}
