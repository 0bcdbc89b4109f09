/** What a recall begins at, told from a fact or from what somebody says of a cylinder. */
import type { CommandBody } from '@ullage/contracts';
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

/** What a fact begins. @throws Refusal for one that found nothing bad */
export async function beginningAt(records: Records, factId: string): Promise<Beginning> {
  const { tx, tenantId } = records;
  const fact = await tx.fact.findUnique({
    where: { tenantId_id: { tenantId, id: factId } },
    include: { factRefs: { include: { instrument: { select: { tag: true } } } } },
  });
  if (!fact) throw notFound();
  const none = { cylinderId: null, instrumentId: null, since: null };
  const cylinderId = fact.factRefs.find(({ role }) => role === 'cylinder')?.cylinderId ?? null;
  const of = fact.factRefs.find(({ role }) => role === 'instrument');
  if (['tool-check', 'calibration'].includes(fact.kind) && of?.instrumentId) {
    const span = await distrust(records, of.instrumentId, factId);
    if (!span) throw refuseField('factId', 'Recall: this check was passed; choose one that failed.');
    const why = `${of.instrument?.tag ?? 'The instrument'} failed its check.`;
    return { ...none, kind: 'instrument', instrumentId: of.instrumentId, factId: span.failedId, why };
  }
  if (fact.kind === 'tare-corrected' && cylinderId !== null)
    return { ...none, kind: 'tare', cylinderId, factId, why: 'Its tare was put right.' };
  const { answer } = fact.body as { answer?: { verdict: string } };
  if (fact.kind === 'air-check' && cylinderId !== null && answer?.verdict === 'over-shop-limit' && fact.happenedAt) {
    const since = await lastGood(records, cylinderId, toInstant(fact.happenedAt));
    return { ...none, kind: 'gas', cylinderId, factId, since, why: 'An air check found it over the shop limit.' };
  }
  throw refuseField('factId', 'Recall: choose a failed check, an air check over the limit, or a corrected tare.');
}

/** The last air check within the limit before an instant; null where there was none: then it counts from the beginning. */
async function lastGood({ tx, tenantId }: Records, cylinderId: string, before: Instant): Promise<Instant | null> {
  const rows = await tx.fact.findMany({
    where: { tenantId, kind: 'air-check', happenedAt: { lte: new Date(before) }, factRefs: { some: { cylinderId } } },
    orderBy: [{ happenedAt: 'desc' }, { id: 'desc' }],
    select: { happenedAt: true, body: true },
  });
  const good = rows.find(
    ({ body }) => (body as { answer: { verdict: string } }).answer.verdict === 'within-shop-limit',
  );
  return good?.happenedAt ? toInstant(good.happenedAt) : null;
}
