/**
 * Stars and airglow on level ground, no moon, no town: 0.001 lx (handbook tables; they differ by a factor of 3, and the
 * program of Circular 171 is often given 0.002). The glow of a town is a hundred times that and more, and is not in it.
 */
export const NIGHT_SKY_lx = 0.001;

/** How far a clear sky may be from what the formulas give, ± stops: common practice, no source. */
export const CLEAR_SKY_STOPS = 1;

/** What the darkest overcast takes of sun and moon: a factor of 10 (Circular 171's table of sky conditions, from memory). */
export const OVERCAST_STOPS = Math.log2(10);
