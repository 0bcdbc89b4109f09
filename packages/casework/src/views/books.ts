import type { BooksView } from '@ullage/contracts';
import { feedNumber } from './viewer.ts';
import type { Viewer } from './viewer.ts';
import { ACCOUNT_WORDS, wordOf } from './words.ts';

function accounts({ tx, tenantId }: Viewer) {
  return tx.gasAccount.findMany({
    where: { tenantId },
    include: {
      cylinder: { select: { serial: true, label: true } },
      circuit: { select: { letter: true, unit: { select: { tag: true } } } },
      balances: { where: { grams: { not: 0 } }, orderBy: [{ refrigerant: 'asc' }, { state: 'asc' }] },
    },
    orderBy: [{ kind: 'asc' }, { id: 'asc' }],
  });
}
type Row = Awaited<ReturnType<typeof accounts>>[number];
const titleOf = (row: Row): string => {
  if (row.cylinder) return row.cylinder.label ?? row.cylinder.serial;
  return row.circuit ? `${row.circuit.unit.tag}-${row.circuit.letter}` : wordOf(ACCOUNT_WORDS, row.kind);
};

/** What each gas account is called on a screen. */
export async function accountNames(viewer: Viewer): Promise<Map<string, string>> {
  return new Map((await accounts(viewer)).map((row) => [row.id, titleOf(row)]));
}

/** Every account with its balances, and their sum per refrigerant, which is zero. */
export async function booksView(viewer: Viewer): Promise<BooksView> {
  const rows = await accounts(viewer);
  const customers = await viewer.tx.customer.findMany({
    where: { tenantId: viewer.tenantId },
    select: { id: true, name: true },
  });
  const names = new Map(customers.map((row) => [row.id, row.name]));
  const totals = new Map<string, number>();
  for (const { refrigerant, grams } of rows.flatMap((row) => row.balances)) {
    totals.set(refrigerant, (totals.get(refrigerant) ?? 0) + Number(grams));
  }
  return {
    accounts: rows.map((row) => ({
      id: row.id,
      kind: row.kind,
      title: titleOf(row),
      balances: row.balances.map((balance) => ({
        refrigerant: balance.refrigerant,
        grams: Number(balance.grams),
        owner: names.get(balance.owner) ?? null,
        state: balance.state,
      })),
    })),
    totals: [...totals].map(([refrigerant, grams]) => ({ refrigerant, grams })),
    number: await feedNumber(viewer),
  };
}
