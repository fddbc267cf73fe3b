/** Rings of a polar diagram at round candela, the last at or beyond the peak: three to five of them. */
export function ringsFor(peak_cd: number): number[] {
  const size = 10 ** Math.floor(Math.log10(peak_cd));
  const step = [0.2, 0.5, 1, 2].map((part) => part * size).find((one) => peak_cd / one <= 5) ?? 2 * size;
  const rings = Math.max(1, Math.ceil(peak_cd / step - 1e-9));
  return Array.from({ length: rings }, (_, i) => Number((step * (i + 1)).toPrecision(6)));
}
