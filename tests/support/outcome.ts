import type { Contractor, TestOffice } from './office.ts';

/** Every order of some things. */
export const permutations = <T>(items: readonly T[]): T[][] =>
  items.length < 2
    ? [[...items]]
    : items.flatMap((item, index) => permutations(items.toSpliced(index, 1)).map((rest) => [item, ...rest]));

/** Books and law of a circuit without the ids, which differ from run to run. */
export async function outcome(world: TestOffice, firm: Contractor, unitId: string) {
  const books = await world.office.books(firm.actors.auditor);
  const [circuit] = (await world.office.unit(firm.actors.auditor, unitId)).circuits;
  return {
    books: books.accounts
      .map((account) => [account.title, account.balances.map(({ grams, state }) => [grams, state])])
      .sort((a, b) => (String(a[0]) < String(b[0]) ? -1 : 1)),
    totals: books.totals,
    rate: circuit?.latest && [circuit.latest.ratePercent, circuit.latest.exact, circuit.latest.days],
    duties: circuit?.duties.map((duty) => [duty.kind, duty.state, duty.dueOn, duty.provisional]),
    additions: circuit?.additions.map((addition) => [addition.day, addition.grams]),
  };
}
