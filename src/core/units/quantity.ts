/** The number itself when it is finite and above zero; otherwise a RangeError that names the quantity. */
export function positive(value: number, name: string): number {
  if (Number.isFinite(value) && value > 0) return value;
  throw new RangeError(`${name} is ${value}; it must be a number above zero`);
}

/** The number itself when it is finite and not below zero; otherwise a RangeError that names the quantity. */
export function nonNegative(value: number, name: string): number {
  if (Number.isFinite(value) && value >= 0) return value;
  throw new RangeError(`${name} is ${value}; it must be zero or a number above zero`);
}
