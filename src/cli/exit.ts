/** Exit codes of every command. */
export const DONE = 0;
/** The answer is "no": a check failed. */
export const NO = 1;
/** Bad input or usage. */
export const BAD_INPUT = 2;
