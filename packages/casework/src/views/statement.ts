/** What one gas account held, what moved and what it holds. */
import type { AccountRef, StatementLine, StatementView } from '@ullage/contracts';
import { txQuery } from '@ullage/database';
import { notFound, toInstant } from '../pipeline/case.ts';
import { accountOf, accountRefs } from './accounts.ts';
import { customerNames } from './customers.ts';
import { factLinks } from './fact-link.ts';
import { STATEMENT, STATEMENT_CURSOR } from './statement.sql.ts';
import type { StatementRow } from './statement.sql.ts';
import type { StatementAsked } from '../office.ts';
import { feedNumber } from './viewer.ts';
import type { Viewer } from './viewer.ts';

/** Lines as they are read: the newest `count` before the cursor, oldest first, and whether there are older ones. */
export interface StatementPage {
  readonly lines: readonly StatementLine[];
  readonly more: boolean;
}

/** After every line: what has no end yet is read back from there. */
const END = ['infinity', 4, 'infinity', 2_147_483_647, 'ffffffff-ffff-ffff-ffff-ffffffffffff'] as const;
async function cursorOf({ tx, tenantId }: Viewer, { accountId, before }: StatementAsked): Promise<readonly unknown[]> {
  if (before === undefined) return END;
  const [place] = await txQuery(tx, STATEMENT_CURSOR, [tenantId, accountId, before]);
  if (!place) throw notFound();
  return [place.happenedAt, place.rank, place.recordedAt, place.seq, place.id];
}

/** The lines of a page. @throws Refusal not-found for a cursor that is no line of the account */
export async function statementLines(viewer: Viewer, asked: StatementAsked, count: number): Promise<StatementPage> {
  const { tx, tenantId } = viewer;
  const cursor = await cursorOf(viewer, asked);
  const values = [tenantId, asked.accountId, asked.refrigerant ?? null, ...cursor, count + 1];
  const rows = await txQuery(tx, STATEMENT, values);
  const shown = rows.slice(0, count).reverse();
  const others = await accountRefs(
    viewer,
    shown.map(({ otherId }) => otherId),
  );
  const facts = await factLinks(
    viewer,
    shown.flatMap(({ factId }) => factId ?? []),
  );
  const owners = await customerNames(
    viewer,
    shown.map(({ owner }) => owner),
  );
  const lines = shown.map((row) =>
    lineOf(row, { other: others.get(row.otherId), owner: owners.get(row.owner), fact: facts.get(row.factId ?? '') }),
  );
  return { lines, more: rows.length > count };
}

interface Named {
  readonly other: AccountRef | undefined;
  readonly owner: string | undefined;
  readonly fact: StatementLine['fact'] | undefined;
}
function lineOf(row: StatementRow, { other, owner, fact }: Named): StatementLine {
  if (!other) throw new Error('a movement without its other account');
  return {
    id: row.id,
    refrigerant: row.refrigerant,
    happenedAt: toInstant(row.happenedAt),
    recordedAt: toInstant(row.recordedAt),
    grams: row.grams,
    balanceGrams: row.balance,
    other,
    owner: owner ?? null,
    state: row.state,
    cause: row.cause,
    correctsId: row.correctsId,
    correctedById: row.correctedById,
    fact: fact ?? null,
  };
}

const PAGE = 50;
/** @throws Refusal not-found */
export async function statementView(viewer: Viewer, asked: StatementAsked): Promise<StatementView> {
  const { tx, tenantId } = viewer;
  const account = await accountOf(viewer, asked.accountId);
  const { lines, more } = await statementLines(viewer, asked, PAGE);
  const [first] = lines;
  const held = await tx.balance.findMany({
    where: { tenantId, accountId: account.id },
    distinct: ['refrigerant'],
    orderBy: { refrigerant: 'asc' },
    select: { refrigerant: true },
  });
  return {
    account,
    refrigerant: asked.refrigerant ?? null,
    refrigerants: held.map(({ refrigerant }) => refrigerant),
    openingGrams: first ? first.balanceGrams - first.grams : 0,
    lines: [...lines],
    closingGrams: lines.at(-1)?.balanceGrams ?? 0,
    earlier: more ? (first?.id ?? null) : null,
    latest: asked.before === undefined,
    number: await feedNumber(viewer),
  };
}
