import type { BooksView } from '@ullage/contracts';
import { ACCOUNT_INCLUDE, accountRef } from './accounts.ts';
import { customerNames } from './customers.ts';
import { feedNumber } from './viewer.ts';
import type { Viewer } from './viewer.ts';

/** Every account with its balances, and their sum per refrigerant, which is zero. */
export async function booksView(viewer: Viewer): Promise<BooksView> {
  const { tx, tenantId } = viewer;
  const rows = await tx.gasAccount.findMany({
    // The account of what was taken back is empty, and stays behind its statement's address.
    where: {
      tenantId,
      NOT: [{ circuit: { withdrawnAt: { not: null } } }, { cylinder: { withdrawnAt: { not: null } } }],
    },
    include: {
      ...ACCOUNT_INCLUDE,
      balances: { where: { grams: { not: 0 } }, orderBy: [{ refrigerant: 'asc' }, { state: 'asc' }] },
    },
    orderBy: [{ kind: 'asc' }, { id: 'asc' }],
  });
  const balances = rows.flatMap((row) => row.balances);
  const names = await customerNames(
    viewer,
    balances.map(({ owner }) => owner),
  );
  const totals = new Map<string, number>();
  for (const { refrigerant, grams } of balances) {
    totals.set(refrigerant, (totals.get(refrigerant) ?? 0) + Number(grams));
  }
  return {
    accounts: rows.map((row) => ({
      ...accountRef(row),
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
