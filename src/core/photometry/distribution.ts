/**
 * How strongly a lamp shines in each direction. Directions are unit vectors in the lamp's own frame: r (right),
 * t (top), a (axis, toward the aim point); γ = 0 along a, C = 0 toward r, C = 90 toward t.
 */
export type Distribution =
  | { readonly kind: 'lambert'; readonly peak_cd: number }
  | {
      readonly kind: 'beam';
      readonly peak_cd: number;
      /** Full angles at 50 % and 10 % of the peak. */
      readonly beam_deg: number;
      readonly field_deg: number;
    }
  | CandelaTable;

/**
 * A measured distribution on its own grid, symmetry already unfolded, in absolute candela.
 * `goniometry` C: vertical = γ from a, horizontal = C about a. A: polar axis t. B: polar axis r.
 * Between angles the candela is bilinear in the file's own angles; outside the measured range it is zero.
 */
export interface CandelaTable {
  readonly kind: 'table';
  readonly goniometry: 'A' | 'B' | 'C';
  readonly vertical_deg: Float64Array;
  /** One entry: the same in every horizontal direction (C only). Otherwise increasing, C closed at 360. */
  readonly horizontal_deg: Float64Array;
  /** candela[h · vertical_deg.length + v] */
  readonly candela: Float64Array;
}
