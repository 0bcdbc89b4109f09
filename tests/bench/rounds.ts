/** Two ways of doing one thing, measured in turns, so that what else the machine does falls on both alike. */
export interface Contest {
  readonly name: string;
  /** The least share of the bare way's speed that is hoped for. */
  readonly aim: number;
  /** One operation, by lane: lanes run at once. */
  readonly ours: (lane: number) => Promise<unknown>;
  readonly bare: (lane: number) => Promise<unknown>;
  readonly lanes: number;
  readonly roundMs: number;
  readonly limits: string;
}
export interface Result {
  readonly name: string;
  readonly aim: number;
  readonly ratio: number;
  readonly lowest: number;
  readonly highest: number;
  readonly oursPerSecond: number;
  readonly barePerSecond: number;
  readonly limits: string;
}
const ROUNDS = 9;

/** Operations a second of `lanes` that each begin the next as the last one ends. */
async function rate(work: (lane: number) => Promise<unknown>, { lanes, roundMs }: Contest): Promise<number> {
  const began = performance.now();
  let done = 0;
  const lane = async (at: number): Promise<void> => {
    while (performance.now() - began < roundMs) {
      await work(at);
      done += 1;
    }
  };
  await Promise.all(Array.from({ length: lanes }, (_, at) => lane(at)));
  return (done * 1000) / (performance.now() - began);
}

export function median(values: readonly number[]): number {
  const sorted = values.toSorted((a, b) => a - b);
  const middle = sorted[Math.floor(sorted.length / 2)];
  if (middle === undefined) throw new Error('nothing was measured');
  return middle;
}

export async function contest(of: Contest): Promise<Result> {
  // Prepared statements, compiled code and warm pages, before anything counts.
  await rate(of.ours, of);
  await rate(of.bare, of);
  const rounds: { ours: number; bare: number }[] = [];
  for (let round = 0; round < ROUNDS; round += 1) {
    const first = round % 2 === 0 ? of.ours : of.bare;
    const one = await rate(first, of);
    const two = await rate(first === of.ours ? of.bare : of.ours, of);
    rounds.push(first === of.ours ? { ours: one, bare: two } : { ours: two, bare: one });
  }
  const ratios = rounds.map(({ ours, bare }) => ours / bare);
  return {
    name: of.name,
    aim: of.aim,
    ratio: median(ratios),
    lowest: Math.min(...ratios),
    highest: Math.max(...ratios),
    oursPerSecond: median(rounds.map(({ ours }) => ours)),
    barePerSecond: median(rounds.map(({ bare }) => bare)),
    limits: of.limits,
  };
}

export function sentence({ name, aim, ratio, lowest, highest, oursPerSecond, barePerSecond, limits }: Result): string {
  const verdict = ratio >= aim ? 'reached' : 'not reached';
  const numbers = `${ratio.toFixed(2)} (aim ${aim.toFixed(2)}, ${verdict}; rounds from ${lowest.toFixed(2)} to ${highest.toFixed(2)})`;
  const speeds = `${Math.round(oursPerSecond)} a second against ${Math.round(barePerSecond)}`;
  return `${name}: ${numbers}\n  ${speeds}. What limits it: ${limits}`;
}
