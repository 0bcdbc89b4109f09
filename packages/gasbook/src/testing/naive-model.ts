/**
 * A second opinion for the property tests, written on purpose in another manner than the product: one pass over all
 * facts of all accounts together, plain sums in one table, no postings, no keys, no reconciling.
 */
import type { Posting, ReachedFull, Weighing } from '../index.ts';
import type { Fact, Premises } from './office.ts';

type Table = Record<string, number>;
interface Act {
  readonly at: string;
  readonly rank: number;
  readonly id: string;
  readonly run: () => void;
}

const RANK: Readonly<Record<string, number>> = {
  weighing: 0,
  recovery: 1,
  'service-loss': 2,
  transfer: 3,
  charge: 4,
  statement: 5,
  decommissioning: 6,
};
/** A row of the model's table; the contractor sorts after every customer. */
export const cellName = (of: { account: string; refrigerant: string; owner: string | null; state: string }): string =>
  [of.account, of.refrigerant, of.owner ?? '~', of.state].join('/');
const fromCell = (p: Posting): string =>
  cellName({ account: p.from, refrigerant: p.refrigerant, owner: p.fromOwner, state: p.fromState });
const elsewhere = (cell: string, account: string): string => account + cell.slice(cell.indexOf('/'));

class Model {
  readonly table: Table = {};
  readonly premises: Premises;
  constructor(premises: Premises) {
    this.premises = premises;
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

  take(cell: string, grams: number): void {
    const account = cell.slice(0, cell.indexOf('/'));
    const lacking = grams - (this.table[cell] ?? 0);
    if (lacking <= 0) return;
    const others = this.cells(account).filter((c) => c !== cell);
    const held = others.reduce((total, c) => total + (this.table[c] ?? 0), 0);
    if (held > 0)
      for (const [c, share] of this.share(others, Math.min(lacking, held)))
        this.move(c, elsewhere(c, 'discrepancy'), share);
    this.move(elsewhere(cell, 'discrepancy'), cell, lacking);
  }

  primary(p: Posting): void {
    const from = fromCell(p);
    if (p.from in this.premises.cylinders || p.from in this.premises.circuits) this.take(from, p.grams);
    this.move(
      from,
      cellName({ account: p.to, refrigerant: p.refrigerant, owner: p.toOwner, state: p.toState }),
      p.grams,
    );
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

function actsOf(model: Model, fact: Fact): Act[] {
  const acts: Act[] = [];
  const circuits = Object.entries(fact.circuits ?? {});
  const cylinders = Object.entries(fact.cylinders ?? {});
  const head = circuits[0]?.[1] ?? cylinders[0]?.[1];
  if (!head) return acts;
  const at = head.happenedAt;
  const movements = [...fact.movements].sort((a, b) => (fromCell(a) < fromCell(b) ? -1 : 1));
  const run = (): void => {
    for (const [account, entry] of cylinders) model.weigh(account, entry.before);
    for (const movement of movements) model.primary(movement);
    for (const [account, entry] of cylinders) model.weigh(account, entry.after);
  };
  acts.push({ at, rank: RANK[head.kind] ?? 0, id: head.factId, run });
  for (const [account, entry] of circuits) {
    const { factId: id, kind } = entry;
    if ('reachedFull' in entry) acts.push({ at, rank: 5, id, run: () => model.say(account, at, entry.reachedFull) });
    if (kind === 'decommissioning')
      acts.push({
        at,
        rank: 6,
        id,
        run: () => model.setTo(account, 0, { own: model.own(account), surplusTo: 'atmosphere' }),
      });
  }
  return acts;
}

const inTime = <T extends { at: string; rank: number; id: string }>(acts: T[]): T[] =>
  acts.sort((a, b) => a.at.localeCompare(b.at) || a.rank - b.rank || a.id.localeCompare(b.id));

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
    const change = fact.movements.reduce(
      (sum, m) => sum + (m.to === account ? m.grams : 0) - (m.from === account ? m.grams : 0),
      0,
    );
    const weighing = entry.before ?? entry.after;
    if (!weighing) {
      came += change;
      continue;
    }
    if (!entry.before) came += change;
    const opening = Math.max(0, weighing.grossGrams - weighing.tareGrams) - came;
    const source = model.premises.cylinders[account]?.deliveredNew ? 'supplier' : 'opening';
    if (opening > 0) model.move(elsewhere(model.own(account), source), model.own(account), opening);
    return;
  }
}

/** Balances after all facts, `account/gas/owner/state` to grams, without those at zero. */
export function finalBalances(facts: readonly Fact[], premises: Premises): Table {
  const model = new Model(premises);
  for (const account of Object.keys(premises.cylinders)) openCylinder(model, facts, account);
  for (const [account, circuit] of Object.entries(premises.circuits)) {
    const first = facts.flatMap((fact) => fact.circuits?.[account]?.happenedAt ?? []).sort()[0];
    if (first !== undefined && circuit.opening === 'assumed-full')
      model.move(elsewhere(model.own(account), 'opening'), model.own(account), model.fullAt(account, first));
  }
  for (const act of inTime(facts.flatMap((fact) => actsOf(model, fact)))) act.run();
  return Object.fromEntries(Object.entries(model.table).filter(([, grams]) => grams !== 0));
}
