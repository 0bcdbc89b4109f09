import type { Holding } from './holding.ts';
import { holdingKey } from './holding.ts';
import { fromHolding, toHolding } from './movement.ts';
import type { Posting } from './movement.ts';

/** Whole grams of one holding on one account; outside accounts may be below zero. */
export interface Balance {
  readonly account: string;
  readonly holding: Holding;
  readonly grams: number;
}

export const balanceKey = (account: string, holding: Holding): string => `${account} ${holdingKey(holding)}`;

/** Balances of all accounts that the postings touch, by `balanceKey`; those that came to zero are left out. */
export function balances(postings: Iterable<Posting>): ReadonlyMap<string, Balance> {
  const books = new Map<string, Balance>();
  const add = (account: string, holding: Holding, grams: number): void => {
    const key = balanceKey(account, holding);
    const sum = (books.get(key)?.grams ?? 0) + grams;
    if (sum === 0) books.delete(key);
    else books.set(key, { account, holding, grams: sum });
  };
  for (const posting of postings) {
    add(posting.from, fromHolding(posting), -posting.grams);
    add(posting.to, toHolding(posting), posting.grams);
  }
  return books;
}

/** Grams of a refrigerant over all accounts: zero, or the books are broken. */
export function bookTotal(books: ReadonlyMap<string, Balance>, refrigerant: string): number {
  let sum = 0;
  for (const { holding, grams } of books.values()) if (holding.refrigerant === refrigerant) sum += grams;
  return sum;
}

/** Grams on one account, of all holdings or of one refrigerant. */
export function onAccount(books: ReadonlyMap<string, Balance>, account: string, refrigerant?: string): number {
  let sum = 0;
  for (const balance of books.values()) {
    if (balance.account !== account) continue;
    if (refrigerant === undefined || balance.holding.refrigerant === refrigerant) sum += balance.grams;
  }
  return sum;
}
