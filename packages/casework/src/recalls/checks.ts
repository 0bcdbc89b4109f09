import type { InstrumentCheck } from '@ullage/trail';
import type { Tx } from '@ullage/database';
import type { Calendar } from '@ullage/units';
import { noonOf } from '../gas/gas-facts.ts';
import { dateToDay, toInstant } from '../pipeline/case.ts';

/** Where a contractor's records are read from, and the zone of its own days. */
export interface Records {
  readonly tx: Tx;
  readonly tenantId: string;
  readonly calendar: Calendar;
  readonly zone: string;
}

const CHECKS = ['tool-check', 'calibration'];

/** Checks and calibrations by instrument: of one, or of all. A calibration is known by day and stands at noon of it. */
export async function instrumentChecks(
  { tx, tenantId, calendar, zone }: Records,
  instrumentId?: string,
): Promise<Map<string, InstrumentCheck[]>> {
  const rows = await tx.factRef.findMany({
    where: {
      tenantId,
      role: 'instrument',
      instrumentId: instrumentId ?? { not: null },
      fact: { kind: { in: CHECKS } },
    },
    select: { instrumentId: true, fact: { select: { id: true, happenedAt: true, happenedOn: true, body: true } } },
  });
  const checks = rows.flatMap(({ instrumentId: of, fact: { id, happenedAt, happenedOn, body } }) => {
    const at = happenedAt ? toInstant(happenedAt) : happenedOn && noonOf(calendar, dateToDay(happenedOn), zone);
    const { result } = body as Pick<InstrumentCheck, 'result'>;
    return of === null || at === null ? [] : [{ of, check: { id, at, result } }];
  });
  const grouped = Map.groupBy(checks, ({ of }) => of);
  return new Map([...grouped].map(([of, own]) => [of, own.map(({ check }) => check)]));
}
