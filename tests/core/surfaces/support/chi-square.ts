/**
 * Chance that χ² with ν degrees of freedom exceeds x: Q(ν/2, x/2), the regularised incomplete gamma function, by its
 * power series below the mean and by Legendre's continued fraction above (Abramowitz & Stegun 6.5.29, 6.5.31).
 */
export function chiSquareUpperTail(x: number, nu: number): number {
  const a = nu / 2;
  const y = x / 2;
  const front = Math.exp(a * Math.log(y) - y - logGamma(a));
  if (y < a + 1) {
    let term = 1 / a;
    let sum = term;
    for (let n = 1; term > 1e-16 * sum; n++) {
      term *= y / (a + n);
      sum += term;
    }
    return 1 - front * sum;
  }
  let b = y + 1 - a;
  let c = 1e300;
  let d = 1 / b;
  let fraction = d;
  for (let n = 1; n < 500; n++) {
    const an = -n * (n - a);
    b += 2;
    d = 1 / (an * d + b);
    c = b + an / c;
    fraction *= c * d;
    if (Math.abs(c * d - 1) < 1e-15) break;
  }
  return front * fraction;
}

/** ln Γ(x) by Stirling's series, shifted up to where it is exact (Abramowitz & Stegun 6.1.41). */
function logGamma(x: number): number {
  if (x < 15) return logGamma(x + 1) - Math.log(x);
  return (
    (x - 0.5) * Math.log(x) -
    x +
    0.5 * Math.log(2 * Math.PI) +
    1 / (12 * x) -
    1 / (360 * x ** 3) +
    1 / (1260 * x ** 5)
  );
}

export interface GoodnessOfFit {
  readonly chiSquare: number;
  readonly degreesOfFreedom: number;
  /** Chance of a worse fit if the expectation is right. */
  readonly p: number;
}

/** Pearson's χ² of counts against expected ones; cells that expect fewer than 10 are put together. */
export function pearson(observed: readonly number[], expected: readonly number[]): GoodnessOfFit {
  let chiSquare = 0;
  let cells = 0;
  let [smallObserved, smallExpected] = [0, 0];
  expected.forEach((e, i) => {
    if (e < 10) {
      smallObserved += observed[i]!;
      smallExpected += e;
    } else {
      chiSquare += (observed[i]! - e) ** 2 / e;
      cells++;
    }
  });
  if (smallExpected > 0) {
    chiSquare += (smallObserved - smallExpected) ** 2 / Math.max(smallExpected, 1);
    cells++;
  }
  return { chiSquare, degreesOfFreedom: cells - 1, p: chiSquareUpperTail(chiSquare, cells - 1) };
}
