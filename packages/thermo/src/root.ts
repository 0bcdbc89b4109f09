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

interface End {
  readonly x: number;
  readonly y: number;
}

/** Between two ends of opposite sign: the secant's point, every third time the middle, so that no bracket shrinks slowly. */
function pointBetween(high: End, low: End, step: number): number {
  const secant = (high.x * low.y - low.x * high.y) / (low.y - high.y);
  return step % 3 === 2 || !(secant > high.x && secant < low.x) ? (high.x + low.x) / 2 : secant;
}

/**
 * The zero of a function that falls from a positive value at `low` to a negative one at `high`; the end itself where it
 * does not. Undefined when a value cannot be told.
 */
export function fallingZero(
  value: (x: number) => number | undefined,
  { low, high, tolerance }: { low: number; high: number; tolerance: number },
): number | undefined {
  const [first, last] = [value(low), value(high)];
  if (first === undefined || last === undefined) return undefined;
  if (first <= 0) return low;
  if (last >= 0) return high;
  let [above, below]: [End, End] = [
    { x: low, y: first },
    { x: high, y: last },
  ];
  for (let step = 0; step < 120 && below.x - above.x > tolerance; step++) {
    const x = pointBetween(above, below, step);
    const y = value(x);
    if (y === undefined || y === 0) return y === 0 ? x : undefined;
    // The end that stays loses half its weight (Illinois), or one end would hold for ever.
    if (y > 0)
      [above, below] = [
        { x, y },
        { x: below.x, y: below.y / 2 },
      ];
    else
      [above, below] = [
        { x: above.x, y: above.y / 2 },
        { x, y },
      ];
  }
  return (above.x + below.x) / 2;
}
