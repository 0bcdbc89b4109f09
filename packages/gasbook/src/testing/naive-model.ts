/**
 * A second opinion for the property tests, written on purpose in another manner than the product: one pass over all
 * facts of all accounts together in the order of time, plain sums in one table, no postings, no keys, no reconciling.
 */
import type { AirCheckSaid, Draw, ReachedFull, TaintCause, Weighing } from '../index.ts';
import { AIR, arrived, cellName, elsewhere, RANK } from './naive-parts.ts';
import type { Suspicion, Table } from './naive-parts.ts';
import type { Fact, Premises } from './office.ts';

interface Act {
  readonly at: string;
  readonly rank: number;
  readonly id: string;
  readonly run: () => void;
}

class Model {
  readonly table: Table = {};
  /** Account, then `cause fact`. */
  readonly suspicions: Record<string, Record<string, Suspicion>> = {};
  readonly filled = new Set<string>();
  readonly emptied = new Set<string>();
  readonly premises: Premises;
  constructor(premises: Premises) {
    this.premises = premises;
  }

  isOurs(account: string): boolean {
    return account in this.premises.cylinders || account in this.premises.circuits;
  }
  move(from: string, to: string, grams: number): void {
    this.table[from] = (this.table[from] ?? 0) - grams;
    this.table[to] = (this.table[to] ?? 0) + grams;
  }
  cells(account: string): string[] {
    return Object.keys(this.table)
      .filter((cell) => cell.startsWith(`${account}/`) && (this.table[cell] ?? 0) > 0)
      .sort();
  }
  sum(account: string): number {
    return this.cells(account).reduce((total, cell) => total + (this.table[cell] ?? 0), 0);
  }

  /** Shares by the largest remainder, one odd gram at a time: to whoever is furthest behind the exact share. */
  share(cells: readonly string[], grams: number): Map<string, number> {
    const weight = new Map(cells.map((cell) => [cell, this.table[cell] ?? 0]));
    const all = [...weight.values()].reduce((a, b) => a + b, 0);
    const shares = new Map([...weight].map(([cell, w]) => [cell, (grams * w - ((grams * w) % all)) / all]));
    const behind = (cell: string): number => grams * (weight.get(cell) ?? 0) - (shares.get(cell) ?? 0) * all;
    let left = grams - [...shares.values()].reduce((a, b) => a + b, 0);
    for (; left > 0; left -= 1) {
      let last = cells[0] ?? '';
      for (const cell of cells) if (behind(cell) > behind(last)) last = cell;
      shares.set(last, (shares.get(last) ?? 0) + 1);
    }
    return shares;
  }

  setTo(account: string, grams: number, { own, surplusTo }: { own: string; surplusTo: string }): void {
    const cells = this.cells(account);
    const change = grams - this.sum(account);
    if (change > 0 && cells.length === 0) this.move(elsewhere(own, 'discrepancy'), own, change);
    else if (change > 0)
      for (const [cell, share] of this.share(cells, change)) this.move(elsewhere(cell, 'discrepancy'), cell, share);
    else if (change < 0)
      for (const [cell, share] of this.share(cells, -change)) this.move(cell, elsewhere(cell, surplusTo), share);
  }

  suspect(account: string, origin: string, more: Omit<Suspicion, 'confirmed'>): void {
    const known = (this.suspicions[account] ??= {});
    const was = known[origin];
    const high = was ? add(was.high, more.high) : more.high;
    known[origin] = {
      ...more,
      low: (was?.low ?? 0) + more.low,
      high: high === null || more.most === null ? null : Math.min(high, more.most),
      confirmed: was?.confirmed ?? false,
    };
  }

  unbounded(account: string, cause: TaintCause, { factId, low }: { factId: string; low: number }): void {
    this.suspect(account, `${cause} ${factId}`, { cause, low, high: null, most: null });
  }

  draw(account: string, draw: Draw): void {
    const held = this.sum(account);
    const micrograms = (grams: number): number => (Math.round(grams * 1e6) * draw.grams) / held;
    const goes = (grams: number, whole: (n: number) => number): number =>
      held > draw.grams ? whole(micrograms(grams)) / 1e6 : grams;
    if (this.isOurs(draw.to))
      for (const [origin, { cause, low, high, most }] of Object.entries(this.suspicions[account] ?? {})) {
        const least = high === null ? low : Math.min(low, high);
        this.suspect(draw.to, origin, {
          cause,
          most,
          low: goes(least, (n) => Math.floor(n + 1e-7)),
          high: high === null ? null : goes(high, (n) => Math.ceil(n - 1e-7)),
        });
      }
    const own = cellName({ account, ...draw.whenEmpty });
    if (draw.grams > held) this.setTo(account, draw.grams, { own, surplusTo: 'discrepancy' });
    for (const [cell, share] of this.share(this.cells(account), draw.grams))
      this.move(cell, arrived(cell, draw), share);
  }

  isMixed(account: string, refrigerant: string): boolean {
    const foreign = this.cells(account).filter((cell) => cell.split('/')[1] !== refrigerant);
    return foreign.reduce((total, cell) => total + (this.table[cell] ?? 0), 0) * 200 > this.sum(account);
  }

  own(account: string): string {
    const of = this.premises.cylinders[account]?.registered ?? this.premises.circuits[account]?.holding;
    return of ? cellName({ account, ...of }) : '';
  }

  fullAt(account: string, at: string): number {
    let full: { from: string; grams: number } | undefined;
    for (const next of this.premises.circuits[account]?.fullCharges ?? []) if (!full || next.from <= at) full = next;
    return full?.grams ?? 0;
  }

  weigh(account: string, weighing: Weighing | undefined): void {
    if (!weighing) return;
    const net = weighing.grossGrams > weighing.tareGrams ? weighing.grossGrams - weighing.tareGrams : 0;
    this.setTo(account, net, { own: this.own(account), surplusTo: 'discrepancy' });
  }

  say(account: string, at: string, reachedFull: ReachedFull): void {
    if (reachedFull !== 'yes') return;
    this.setTo(account, this.fullAt(account, at), { own: this.own(account), surplusTo: 'atmosphere' });
  }
}
const add = (a: number | null, b: number | null): number | null => (a === null || b === null ? null : a + b);

type CylinderEntry = NonNullable<Fact['cylinders']>[string];
type CircuitEntry = NonNullable<Fact['circuits']>[string];

/** What is read and checked of a cylinder before gas moves. */
function openCheck(model: Model, account: string, entry: CylinderEntry): void {
  model.weigh(account, entry.before);
  const isEmpty = model.sum(account) === 0;
  if (entry.evacuated === true && isEmpty) delete model.suspicions[account];
  if (entry.evacuated === false && isEmpty && !model.filled.has(account))
    model.unbounded(account, 'cylinder-not-evacuated', { factId: entry.factId, low: 0 });
  if (entry.evacuated !== undefined || !isEmpty) model.filled.add(account);
  if (entry.check && !model.isMixed(account, entry.check.refrigerant))
    airCheck(model, account, { ...entry.check, factId: entry.factId });
}

function airCheck(model: Model, account: string, { verdict, airGrams, factId }: AirCheckSaid & { factId: string }) {
  const ofAir = (): [string, Suspicion][] =>
    Object.entries(model.suspicions[account] ?? {}).filter(([, { cause }]) => AIR.has(cause));
  if (verdict === 'within-shop-limit') for (const [origin] of ofAir()) delete model.suspicions[account]?.[origin];
  if (verdict !== 'over-shop-limit') return;
  if (ofAir().length === 0) model.unbounded(account, 'air-check-over', { factId, low: airGrams ?? 0 });
  for (const [, suspicion] of ofAir()) suspicion.confirmed = true;
}

function raise(model: Model, account: string, { raises, factId }: CylinderEntry | CircuitEntry): void {
  for (const { cause, lowGrams, highGrams } of raises ?? [])
    if (!model.suspicions[account]?.[`${cause} ${factId}`])
      model.suspect(account, `${cause} ${factId}`, { cause, low: lowGrams, high: highGrams, most: highGrams });
}

function flowOf(model: Model, fact: Fact): void {
  for (const p of fact.given ?? [])
    model.move(
      cellName({ account: p.from, refrigerant: p.refrigerant, owner: p.fromOwner, state: p.fromState }),
      cellName({ account: p.to, refrigerant: p.refrigerant, owner: p.toOwner, state: p.toState }),
      p.grams,
    );
  for (const [account, draw] of Object.entries(fact.draws ?? {})) model.draw(account, draw);
}

function circuitWords(model: Model, account: string, entry: CircuitEntry): void {
  if (entry.kind === 'recovery' && entry.whole) model.emptied.add(account);
  if (entry.kind === 'readings' && entry.flat) model.emptied.add(account);
  if (entry.kind === 'charge') model.emptied.delete(account);
  if (entry.kind === 'vacuum' && entry.held && model.emptied.has(account)) delete model.suspicions[account];
}

function actsOf(model: Model, fact: Fact): Act[] {
  const acts: Act[] = [];
  const circuits = Object.entries(fact.circuits ?? {});
  const cylinders = Object.entries(fact.cylinders ?? {});
  const head = circuits[0]?.[1] ?? cylinders[0]?.[1];
  if (!head) return acts;
  const at = head.happenedAt;
  const run = (): void => {
    // A doubt that arises where gas leaves goes along; one that arises where it arrives does not go back.
    const givers = [...circuits, ...cylinders].filter(([account]) => fact.draws?.[account]);
    const takers = [...circuits, ...cylinders].filter(([account]) => !fact.draws?.[account]);
    for (const [account, entry] of cylinders) openCheck(model, account, entry);
    for (const [account, entry] of givers) raise(model, account, entry);
    flowOf(model, fact);
    for (const [account, entry] of takers) raise(model, account, entry);
    for (const [account, entry] of circuits) circuitWords(model, account, entry);
    for (const [account, entry] of cylinders) model.weigh(account, entry.after);
  };
  acts.push({ at, rank: RANK[head.kind] ?? 0, id: head.factId, run });
  for (const [account, entry] of circuits) {
    const { factId: id, kind } = entry;
    if ('reachedFull' in entry) acts.push({ at, rank: 8, id, run: () => model.say(account, at, entry.reachedFull) });
    if (kind === 'decommissioning')
      acts.push({
        at,
        rank: 9,
        id,
        run: () => model.setTo(account, 0, { own: model.own(account), surplusTo: 'atmosphere' }),
      });
  }
  return acts;
}

const inTime = <T extends { at: string; rank: number; id: string }>(acts: T[]): T[] =>
  acts.sort((a, b) => a.at.localeCompare(b.at) || a.rank - b.rank || a.id.localeCompare(b.id));

function changeOf(fact: Fact, account: string): number {
  let change = -(fact.draws?.[account]?.grams ?? 0);
  for (const draw of Object.values(fact.draws ?? {})) if (draw.to === account) change += draw.grams;
  for (const posting of fact.given ?? []) if (posting.to === account) change += posting.grams;
  return change;
}

/** Gas that a cylinder must have held at first: what it weighed the first time, less what had come in by then. */
function openCylinder(model: Model, facts: readonly Fact[], account: string): void {
  const entries = inTime(
    facts.flatMap((fact) => {
      const entry = fact.cylinders?.[account];
      return entry ? [{ at: entry.happenedAt, rank: RANK[entry.kind] ?? 0, id: entry.factId, entry, fact }] : [];
    }),
  );
  let came = 0;
  for (const { entry, fact } of entries) {
    const weighing = entry.before ?? entry.after;
    if (!weighing) {
      came += changeOf(fact, account);
      continue;
    }
    if (!entry.before) came += changeOf(fact, account);
    const opening = Math.max(0, weighing.grossGrams - weighing.tareGrams) - came;
    const source = model.premises.cylinders[account]?.deliveredNew ? 'supplier' : 'opening';
    if (opening > 0) model.move(elsewhere(model.own(account), source), model.own(account), opening);
    return;
  }
}

export interface Final {
  /** `account/gas/owner/state` to grams, without those at zero. */
  readonly balances: Table;
  /** `account cause low high confirmed`, in one order. */
  readonly suspicions: readonly string[];
}
/** Balances and open doubts after all facts. */
export function finalState(facts: readonly Fact[], premises: Premises): Final {
  const model = new Model(premises);
  for (const account of Object.keys(premises.cylinders)) openCylinder(model, facts, account);
  for (const [account, circuit] of Object.entries(premises.circuits)) {
    const moved = facts.flatMap((fact) => {
      const entry = fact.circuits?.[account];
      return entry && entry.kind !== 'readings' && entry.kind !== 'vacuum' ? [entry.happenedAt] : [];
    });
    const first = moved.sort()[0];
    if (first !== undefined && circuit.opening === 'assumed-full')
      model.move(elsewhere(model.own(account), 'opening'), model.own(account), model.fullAt(account, first));
  }
  for (const act of inTime(facts.flatMap((fact) => actsOf(model, fact)))) act.run();
  const suspicions = Object.entries(model.suspicions).flatMap(([account, of]) =>
    Object.values(of).map(({ cause, low, high, confirmed }) => {
      const least = high === null ? low : Math.min(low, high);
      return `${account} ${cause} ${least.toFixed(5)} ${high?.toFixed(5) ?? 'none'} ${confirmed}`;
    }),
  );
  return {
    balances: Object.fromEntries(Object.entries(model.table).filter(([, grams]) => grams !== 0)),
    suspicions: suspicions.sort(),
  };
}
