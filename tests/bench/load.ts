/**
 * The board's and the phone's routes over loopback: at the size of 50 contractors of 220 units and of one of 10,000, one
 * contractor against a thousand, beside one that floods, and a charge after one year against one after ten.
 */
import { setTimeout as sleep } from 'node:timers/promises';
import pg from 'pg';
import { multiply } from '../support/multiply.ts';
import { aFirm, aTenant, chargeAfter, newId, tellDemo, tellYears } from './crowd.ts';
import type { Charged } from './crowd.ts';
import type { Ground, Place } from './ground.ts';
import { ask, hangUp, signUp, startApi } from './http.ts';
import { median } from './rounds.ts';

const USUAL = 220;
const CONTRACTORS = 50;
const SMALL_ONES = 950;
const LARGE = 10_000;
/** What the flooding one sends at once, and what the quiet one sends a second. */
const FLOOD_LANES = 32;
const QUIET_A_SECOND = 10;

/** What a desk and a phone ask for most. */
const READS = ['returns', 'visits', 'units', 'places', 'cylinders', 'attention', 'notices', 'books'].map(
  (name) => `/v1/${name}`,
);
const COSTLY = ['/v1/repeats', '/v1/returns', '/v1/books'];

interface Side {
  readonly port: number;
  readonly cookie: string;
}
const at = (values: readonly number[], share: number): number => {
  const sorted = values.toSorted((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * share))] ?? NaN;
};
const p50 = (values: readonly number[]): number => at(values, 0.5);
const p99 = (values: readonly number[]): number => at(values, 0.99);
const ms = (value: number): string => value.toFixed(1);

interface Timed {
  readonly took: number;
  readonly bytes: number;
  readonly status: number;
}
async function timed({ port, cookie }: Side, path: string, sent: { body?: object; key?: string } = {}): Promise<Timed> {
  const began = performance.now();
  const { status, text } = await ask(port, path, { cookie, ...sent });
  return { took: performance.now() - began, bytes: text.length, status };
}
async function good(side: Side, path: string, sent: { body?: object; key?: string } = {}): Promise<Timed> {
  const answer = await timed(side, path, sent);
  if (answer.status !== 200) throw new Error(`${path} answered ${answer.status}`);
  return answer;
}

async function inside<T>({ adminUrl }: Place, work: (admin: pg.Client) => Promise<T>): Promise<T> {
  const admin = new pg.Client({ connectionString: adminUrl });
  await admin.connect();
  await admin.query('SET synchronous_commit = off');
  try {
    return await work(admin);
  } finally {
    await admin.end();
  }
}

/** One contractor of the usual size alone in its database, and the same one among a thousand and the large one. */
async function crowds(ground: Ground, say: (line: string) => void) {
  const one = await ground.another('one');
  const alone = await startApi(one.urls);
  const quiet = await signUp(alone.port, { email: 'quiet@firm.example', name: 'Quiet' });
  const { told, units } = await inside(one, async (admin) => {
    const actors = await aFirm(admin, 'told');
    const count = await tellDemo(one, admin, actors);
    const times = Math.ceil(USUAL / count);
    await multiply(admin, actors.owner.tenantId, [{ tenantId: quiet.tenantId, times }]);
    return { told: actors.owner.tenantId, units: count };
  });
  alone.child.kill('SIGTERM');
  await new Promise((resolve) => alone.child.once('exit', resolve));

  const many = await ground.another('many', 'one');
  const [first, second] = [await startApi(one.urls), await startApi(many.urls)];
  // The same program where a contractor's requests do not wait for each other: what its turns are measured against.
  const third = await startApi(many.urls, { LIMIT_AT_ONCE: '1000' });
  const loud = await signUp(second.port, { email: 'loud@firm.example', name: 'Loud' });
  const large = await signUp(second.port, { email: 'large@firm.example', name: 'Large' });
  const began = performance.now();
  const rows = await inside(many, async (admin) => {
    const usual = Math.ceil(USUAL / units);
    const targets = [
      { tenantId: loud.tenantId, times: usual },
      { tenantId: large.tenantId, times: Math.ceil(LARGE / units) },
    ];
    for (let n = 0; n < CONTRACTORS - 2; n += 1)
      targets.push({ tenantId: await aTenant(admin, `f${n}`), times: usual });
    for (let n = 0; n < SMALL_ONES; n += 1) targets.push({ tenantId: await aTenant(admin, `s${n}`), times: 1 });
    await multiply(admin, told, targets);
    const counted = await admin.query<{ units: number; facts: number }>(
      'SELECT (SELECT count(*) FROM unit)::int AS units, (SELECT count(*) FROM fact)::int AS facts',
    );
    return counted.rows[0];
  });
  say(`  ${rows?.units} units, ${rows?.facts} facts, made in ${Math.round((performance.now() - began) / 1000)} s`);
  const side = ({ port }: { port: number }, { cookie }: { cookie: string }): Side => ({ port, cookie });
  return {
    many,
    alone: side(first, quiet),
    among: side(second, quiet),
    loud: side(second, loud),
    large: side(second, large),
    withoutTurns: { among: side(third, quiet), loud: side(third, loud) },
    stop: () => [first, second, third].forEach(({ child }) => child.kill('SIGTERM')),
  };
}
type Crowds = Awaited<ReturnType<typeof crowds>>;

/** Turns of a route: so many, or as many as fit, and five at least. */
const TURNS = 40;
const ROUTE_MS = 4_000;
const FEWEST = 5;
/** The same route in turns, so that what else the machine does falls on both. */
async function inTurns(paths: readonly string[], a: Side, b: Side): Promise<Map<string, { a: Timed[]; b: Timed[] }>> {
  const seen = new Map<string, { a: Timed[]; b: Timed[] }>();
  for (const path of paths) {
    const both: { a: Timed[]; b: Timed[] } = { a: [], b: [] };
    for (let warm = 0; warm < 2; warm += 1) for (const side of [a, b]) await good(side, path);
    const end = performance.now() + ROUTE_MS;
    for (let n = 0; n < TURNS && (n < FEWEST || performance.now() < end); n += 1) {
      if (n % 2 === 0) both.a.push(await good(a, path));
      both.b.push(await good(b, path));
      if (n % 2 === 1) both.a.push(await good(a, path));
    }
    seen.set(path, both);
  }
  return seen;
}
const took = (answers: readonly Timed[]): number[] => answers.map((answer) => answer.took);

async function sizes({ among, large }: Crowds, say: (line: string) => void): Promise<void> {
  say(`One contractor of 10,000 units against one of ${USUAL}, in turns (ms p50, p99; bytes):`);
  for (const [path, { a, b }] of await inTurns([...READS, '/v1/repeats'], among, large)) {
    const turns = `${a.length} turns`;
    const one = `${ms(p50(took(a)))}, ${ms(p99(took(a)))}; ${a[0]?.bytes}`;
    const other = `${ms(p50(took(b)))}, ${ms(p99(took(b)))}; ${b[0]?.bytes}`;
    say(`  ${path}: ${one} against ${other}: ${(p50(took(b)) / p50(took(a))).toFixed(2)} times, ${turns}`);
  }
}

async function thousand({ alone, among }: Crowds, say: (line: string) => void): Promise<void> {
  const ratios = [...(await inTurns(READS, alone, among))].map(([path, { a, b }]) => ({
    path,
    ratio: p50(took(b)) / p50(took(a)),
  }));
  const all = median(ratios.map(({ ratio }) => ratio));
  say(`One contractor among a thousand against alone: ${all.toFixed(2)} times (aim 1.10), p50 of each route in turns:`);
  say(`  ${ratios.map(({ path, ratio }) => `${path} ${ratio.toFixed(2)}`).join(', ')}`);
}

/** The quiet one's times at its own pace, whatever the answers take. */
async function quietly(side: Side, forMs: number): Promise<number[]> {
  const times: number[] = [];
  const asked: Promise<void>[] = [];
  const end = performance.now() + forMs;
  for (let n = 0; performance.now() < end; n += 1) {
    const path = READS[n % READS.length] ?? '/v1/me';
    asked.push(good(side, path).then((answer) => void times.push(answer.took)));
    await sleep(1000 / QUIET_A_SECOND);
  }
  await Promise.all(asked);
  return times;
}
async function flooded({ withoutTurns, ...withTurns }: Crowds, say: (line: string) => void): Promise<void> {
  say(`A quiet contractor beside one that floods from ${FLOOD_LANES} lanes, against calm, in turns (p99: aim 1.50):`);
  say(`  all at once:   ${await beside(withoutTurns)}`);
  say(`  three at once: ${await beside(withTurns)}`);
}
async function beside({ among, loud }: Pick<Crowds, 'among' | 'loud'>): Promise<string> {
  const calm: number[] = [];
  const rough: number[] = [];
  let sent = 0;
  for (let round = 0; round < 3; round += 1) {
    calm.push(...(await quietly(among, 4_000)));
    let over = false;
    const lane = async (first: number): Promise<void> => {
      for (let n = first; !over; n += 1) {
        await timed(loud, COSTLY[n % COSTLY.length] ?? '');
        sent += 1;
      }
    };
    const flood = Promise.all(Array.from({ length: FLOOD_LANES }, (_, first) => lane(first)));
    await sleep(500);
    rough.push(...(await quietly(among, 4_000)));
    over = true;
    await flood;
  }
  const ratio = (of: (values: readonly number[]) => number): string => (of(rough) / of(calm)).toFixed(2);
  const times = `p99 ${ratio(p99)} times, ${ms(p99(rough))} against ${ms(p99(calm))} ms; p50 ${ratio(p50)} times`;
  return `${times}; ${sent} requests of the other`;
}

const COPIES = 24;
/** Each charge goes into a copy of its own, so that the past it rests on is one year's, or ten years'. */
async function years({ many, among }: Crowds, say: (line: string) => void): Promise<void> {
  const sides: { side: Side; charged: { of: Charged; before: number }[] }[] = [];
  for (const told of [1, 10]) {
    const firm = await signUp(among.port, { email: `years-${told}@firm.example`, name: `Years ${told}` });
    const charged = await inside(many, async (admin) => {
      const actors = await aFirm(admin, `told-${told}`);
      await tellYears(many, actors, told);
      await multiply(admin, actors.owner.tenantId, [{ tenantId: firm.tenantId, times: COPIES }]);
      const found = await admin.query<Charged>(
        `SELECT v.id AS "visitId", vc.circuit_id AS "circuitId",
           (SELECT cylinder_id FROM weighing w JOIN fact f ON f.tenant_id = w.tenant_id AND f.id = w.fact_id
            WHERE f.tenant_id = v.tenant_id AND f.circuit_id = vc.circuit_id LIMIT 1) AS "cylinderId"
         FROM visit v JOIN visit_circuit vc ON vc.tenant_id = v.tenant_id AND vc.visit_id = v.id
         WHERE v.tenant_id = $1 AND v.purpose = 'call'`,
        [firm.tenantId],
      );
      return found.rows.map((of) => ({ of, before: told * 4 }));
    });
    sides.push({ side: { port: among.port, cookie: firm.cookie }, charged });
  }
  const [short, long] = sides.map(() => [] as number[]);
  for (let n = 0; n < COPIES; n += 1) {
    for (const [which, { side, charged }] of sides.entries()) {
      const next = charged[n];
      if (!next) throw new Error('a copy is missing');
      const body = { body: chargeAfter(next.before, next.of) };
      (which === 0 ? short : long)?.push((await good(side, '/v1/commands/record-charge', { body, key: newId() })).took);
    }
  }
  const [one, ten] = [p50(short ?? []), p50(long ?? [])];
  say(`A charge after ten years of a circuit and its cylinder against one after one year, in turns:`);
  say(`  p50 ${(ten / one).toFixed(2)} times: ${ms(ten)} against ${ms(one)} ms, ${COPIES} of each`);
}

export async function load(ground: Ground, say: (line: string) => void): Promise<void> {
  say(`${CONTRACTORS} contractors of ${USUAL} units, ${SMALL_ONES} small ones and one of 10,000:`);
  const crowd = await crowds(ground, say);
  try {
    for (const measure of [flooded, thousand, years, sizes]) await measure(crowd, say);
  } finally {
    crowd.stop();
    hangUp();
  }
}
