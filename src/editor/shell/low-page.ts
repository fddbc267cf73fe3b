/** Pages up to this height give their edges up for the picture, CSS pixels; `(max-height: 760px)` in the styles. */
export const LOW_PAGE_px = 760;
