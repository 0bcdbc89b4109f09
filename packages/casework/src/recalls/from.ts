/** What a recall begins at, told from a fact or from what somebody says of a cylinder. */
import type { CommandBody } from '@ullage/contracts';
import type { Prisma } from '@ullage/database';
import type { Instant } from '@ullage/units';
import { notFound, refuseField, toInstant } from '../pipeline/case.ts';
import { distrust } from './reach-instrument.ts';
import type { Records } from './checks.ts';

export interface Beginning {
  readonly kind: 'gas' | 'instrument' | 'tare';
  readonly cylinderId: string | null;
  readonly instrumentId: string | null;
  readonly factId: string | null;
  readonly since: Instant | null;
  readonly why: string;
}

/** One source at one time is one recall. */
export const keyOf = ({ kind, cylinderId, instrumentId, factId, since }: Beginning): string =>
  kind === 'gas'
    ? JSON.stringify([kind, cylinderId, since])
    : JSON.stringify([kind, cylinderId ?? instrumentId, factId]);

/** Gas that somebody says is bad, since when they say or since it was last found good. */
export async function badGas(
  records: Records,
  { cylinderId, since: said, why }: CommandBody<'recall-gas'>,
  now: Instant,
): Promise<Beginning> {
  const known = await records.tx.cylinder.count({ where: { tenantId: records.tenantId, id: cylinderId } });
  if (known === 0) throw notFound();
  const since = said === undefined ? await lastGood(records, cylinderId, now) : utc(said);
  if (since !== null && since > now)
    throw refuseField('since', 'Bad since: lies ahead; give a moment that has passed.');
  return { kind: 'gas', cylinderId, instrumentId: null, factId: null, since, why };
}
const utc = (at: string): Instant => new Date(at).toISOString();

const FACT = {
  factRefs: {
    select: { role: true, cylinderId: true, instrumentId: true, instrument: { select: { tag: true } } },
  },
} satisfies Prisma.FactInclude;
type FactRow = Prisma.FactGetPayload<{ include: typeof FACT }>;
const NONE = { cylinderId: null, instrumentId: null, since: null };
type Begin = (records: Records, fact: FactRow) => Promise<Beginning | undefined>;

const failedCheck: Begin = async (records, { id, factRefs }) => {
  const of = factRefs.find(({ role }) => role === 'instrument');
  if (!of?.instrumentId) return undefined;
  const span = await distrust(records, of.instrumentId, id);
  const why = `${of.instrument?.tag ?? 'The instrument'} failed its check.`;
  return span && { ...NONE, kind: 'instrument', instrumentId: of.instrumentId, factId: span.failedId, why };
};
const cylinderIn = ({ factRefs }: FactRow): string | null =>
  factRefs.find(({ role }) => role === 'cylinder')?.cylinderId ?? null;
const wrongTare: Begin = (_records, fact) => {
  const cylinderId = cylinderIn(fact);
  const begun = { ...NONE, kind: 'tare' as const, cylinderId, factId: fact.id, why: 'Its tare was put right.' };
  return Promise.resolve(cylinderId === null ? undefined : begun);
};
const overLimit: Begin = async (records, fact) => {
  const cylinderId = cylinderIn(fact);
  if (cylinderId === null || !fact.happenedAt || verdictIn(fact) !== 'over-shop-limit') return undefined;
  const since = await lastGood(records, cylinderId, toInstant(fact.happenedAt));
  const why = 'An air check found it over the shop limit.';
  return { ...NONE, kind: 'gas', cylinderId, factId: fact.id, since, why };
};
const BEGINS: Readonly<Record<string, Begin>> = {
  'tool-check': failedCheck,
  calibration: failedCheck,
  'tare-corrected': wrongTare,
  'air-check': overLimit,
};

/** What a fact begins. @throws Refusal for one that found nothing bad */
export async function beginningAt(records: Records, factId: string): Promise<Beginning> {
  const { tx, tenantId } = records;
  const fact = await tx.fact.findUnique({ where: { tenantId_id: { tenantId, id: factId } }, include: FACT });
  if (!fact) throw notFound();
  const begun = await BEGINS[fact.kind]?.(records, fact);
  if (begun) return begun;
  throw refuseField('factId', 'Recall: choose a failed check, an air check over the limit, or a corrected tare.');
}

const verdictIn = ({ body }: { readonly body: unknown }): string | undefined =>
  (body as { answer?: { verdict: string } }).answer?.verdict;
/** The last air check within the limit before an instant; null where there was none: then it counts from the beginning. */
async function lastGood({ tx, tenantId }: Records, cylinderId: string, before: Instant): Promise<Instant | null> {
  const rows = await tx.fact.findMany({
    where: { tenantId, kind: 'air-check', happenedAt: { lte: new Date(before) }, factRefs: { some: { cylinderId } } },
    orderBy: [{ happenedAt: 'desc' }, { id: 'desc' }],
    select: { happenedAt: true, body: true },
  });
  const good = rows.find((row) => verdictIn(row) === 'within-shop-limit');
  return good?.happenedAt ? toInstant(good.happenedAt) : null;
}
