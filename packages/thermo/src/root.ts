export interface Bracket {
  readonly low: number;
  readonly high: number;
  /** Rising through zero between low and high. */
  readonly value: (x: number) => number;
  readonly slope: (x: number) => number;
}

/**
 * The zero of a rising function: Newton's step where it stays inside the bracket, else its middle. Ends when a step is
 * below 1e-9 (a nanokelvin, far below the fits' own error) or after 100 steps, which bisection alone would not need.
 */
export function risingZero({ low, high, value, slope }: Bracket): number {
  let [below, above, x] = [low, high, (low + high) / 2];
  for (let step = 0; step < 100; step++) {
    const y = value(x);
    if (y > 0) above = x;
    else below = x;
    const newton = x - y / slope(x);
    const next = newton > below && newton < above ? newton : (below + above) / 2;
    if (Math.abs(next - x) < 1e-9) return next;
    x = next;
  }
  return x;
}
