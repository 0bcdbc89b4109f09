/** What was done elsewhere about things that a recall reached: it settles them as well. */
import type { RecallItemView } from '@ullage/contracts';
import { instantOfFact } from './instant.ts';
import type { Records } from './checks.ts';
import { nameKey } from './names.ts';
import type { RecallRow } from './recall-row.ts';
import type { Touched } from './touched.ts';

export type Settled = NonNullable<RecallItemView['settled']>;

const FACT = {
  kind: true,
  correctsId: true,
  happenedAt: true,
  recordedAt: true,
  body: true,
  byPerson: { select: { name: true } },
} as const;
interface FactRow {
  readonly kind: string;
  readonly correctsId: string | null;
  readonly happenedAt: Date | null;
  readonly recordedAt: Date;
  readonly body: unknown;
  readonly byPerson: { readonly name: string } | null;
}
/** A fact that settles a thing, and how. */
interface Done {
  readonly key: string;
  readonly how: Settled['how'];
  readonly fact: FactRow;
}

/** By kind and id: weights put right, a cylinder weighed or checked again, evidence set aside. */
export async function doneSince(
  records: Records,
  row: RecallRow,
  touched: readonly Touched[],
): Promise<ReadonlyMap<string, Settled>> {
  const latest = new Map(touched.map((one) => [nameKey(one), one.recordedAt]));
  const all = [...(await corrected(records, row, touched)), ...(await checked(records, row, touched))];
  return new Map(
    all
      .filter(({ key, fact }) => fact.recordedAt >= (latest.get(key) ?? fact.recordedAt))
      .map(({ key, how, fact }) => [
        key,
        { how, why: null, by: fact.byPerson?.name ?? '', at: instantOfFact(fact), visitId: null },
      ]),
  );
}

const idsOf = (touched: readonly Touched[], ...kinds: Touched['kind'][]): string[] =>
  touched.flatMap(({ kind, id }) => (kinds.includes(kind) ? [id] : []));

async function corrected(
  { tx, tenantId }: Records,
  { openedAt }: RecallRow,
  touched: readonly Touched[],
): Promise<Done[]> {
  const facts = await tx.fact.findMany({
    where: {
      tenantId,
      OR: [
        { kind: 'correction', correctsId: { in: idsOf(touched, 'weighing') }, recordedAt: { gt: openedAt } },
        { kind: 'set-aside', correctsId: { in: idsOf(touched, 'look', 'test') } },
      ],
    },
    select: FACT,
    orderBy: { recordedAt: 'asc' },
  });
  return facts.flatMap((fact): Done[] => {
    const id = fact.correctsId ?? '';
    if (fact.kind === 'correction') return [{ key: nameKey({ kind: 'weighing', id }), how: 'put-right', fact }];
    return [
      { key: nameKey({ kind: 'look', id }), how: 'look-again', fact },
      { key: nameKey({ kind: 'test', id }), how: 'test-again', fact },
    ];
  });
}

/** Gas is found good by an air check; where weights are in doubt, a cylinder is weighed again. */
async function checked(
  { tx, tenantId }: Records,
  { kind, openedAt }: RecallRow,
  touched: readonly Touched[],
): Promise<Done[]> {
  const isGas = kind === 'gas';
  const refs = await tx.factRef.findMany({
    where: {
      tenantId,
      role: 'cylinder',
      cylinderId: { in: idsOf(touched, 'cylinder') },
      fact: { kind: isGas ? 'air-check' : 'cylinder-weighed', recordedAt: { gt: openedAt } },
    },
    select: { cylinderId: true, fact: { select: FACT } },
    orderBy: { fact: { recordedAt: 'asc' } },
  });
  return refs.flatMap(({ cylinderId, fact }): Done[] => {
    const key = nameKey({ kind: 'cylinder', id: cylinderId ?? '' });
    if (!isGas) return [{ key, how: 'weighed', fact }];
    const { answer } = fact.body as { answer: { verdict: string } };
    return answer.verdict === 'within-shop-limit' ? [{ key, how: 'checked', fact }] : [];
  });
}
