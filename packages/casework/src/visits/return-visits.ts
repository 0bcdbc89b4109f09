import { toDate } from '../pipeline/case.ts';
import type { Work } from '../pipeline/case.ts';

/** Return visits are proposed so long ahead of a duty, or at once when less is left. */
export const AHEAD_DAYS = 60;
const DAY_MS = 86_400_000;

/** Duties that somebody must drive out for, and what kind of visit discharges them. A plan is written at a desk. */
export const PURPOSE: Readonly<Record<string, 'repair' | 'follow-up' | 'inspection'>> = {
  inspection: 'repair',
  repair: 'repair',
  'initial-verification': 'repair',
  'follow-up-verification': 'follow-up',
  'periodic-inspection': 'inspection',
};
/** Common practice for time on site; a firm's own medians replace it later. */
const MINUTES = { repair: 240, 'follow-up': 45, inspection: 120 } as const;
type Purpose = keyof typeof MINUTES;

type DutyRow = Awaited<ReturnType<typeof openDuties>>[number];
function openDuties(desk: Work, circuitId: string) {
  return desk.tx.duty.findMany({
    where: { tenantId: desk.tenantId, circuitId, state: 'open' },
    orderBy: [{ dueAt: 'asc' }, { id: 'asc' }],
  });
}

/**
 * Keeps the return visits of a circuit in step with its duties: new duties get a proposed visit, a visit whose duties
 * are all gone leaves the list when nobody was placed on it and is flagged when somebody was, and a visit placed for a
 * withdrawn duty is linked to the duty that took its place where kind and circuit agree.
 */
export async function proposeReturns(desk: Work, circuitId: string): Promise<void> {
  const now = desk.world.calendar.epochMs(desk.recordedAt);
  const duties = (await openDuties(desk, circuitId)).filter(
    (duty) =>
      PURPOSE[duty.kind] !== undefined && duty.dueAt !== null && duty.dueAt.getTime() - AHEAD_DAYS * DAY_MS <= now,
  );
  const visits = await activeReturns(desk, circuitId);
  const onSite = await isSomebodyOnSite(desk, circuitId);
  for (const purpose of Object.keys(MINUTES) as Purpose[]) {
    const wanted = duties.filter((duty) => PURPOSE[duty.kind] === purpose);
    const visit = visits.find((row) => row.purpose === purpose);
    if (visit) await keepInStep(desk, visit, wanted);
    // Whoever is on site may be discharging them this minute; a visit is proposed once they leave.
    else if (wanted.length > 0 && !(purpose === 'repair' && onSite))
      await propose(desk, { circuitId, purpose, wanted });
  }
}

function activeReturns(desk: Work, circuitId: string) {
  return desk.tx.visit.findMany({
    where: {
      tenantId: desk.tenantId,
      purpose: { in: Object.keys(MINUTES) },
      state: { in: ['proposed', 'placed'] },
      visitCircuits: { some: { circuitId } },
    },
    include: { visitDuties: { include: { duty: true } } },
    orderBy: [{ createdAt: 'asc' }, { id: 'asc' }],
  });
}
type VisitRow = Awaited<ReturnType<typeof activeReturns>>[number];

async function isSomebodyOnSite(desk: Work, circuitId: string): Promise<boolean> {
  const where = { tenantId: desk.tenantId, state: 'on-site', visitCircuits: { some: { circuitId } } };
  return (await desk.tx.visit.count({ where })) > 0;
}

/** The lawful window of a visit: opens when the last of its duties does, ends at the first legal edge. */
function windowOf(duties: readonly DutyRow[]): { opensAt: Date | null; dueAt: Date | null } {
  const latest = (dates: Date[]): Date | null =>
    dates.reduce<Date | null>((a, b) => (a === null || b > a ? b : a), null);
  const earliest = (dates: Date[]): Date | null =>
    dates.reduce<Date | null>((a, b) => (a === null || b < a ? b : a), null);
  return {
    opensAt: latest(duties.flatMap((duty) => (duty.opensAt ? [duty.opensAt] : []))),
    dueAt: earliest(duties.flatMap((duty) => (duty.dueAt ? [duty.dueAt] : []))),
  };
}

async function propose(
  desk: Work,
  given: { circuitId: string; purpose: Purpose; wanted: readonly DutyRow[] },
): Promise<void> {
  const { tx, tenantId } = desk;
  const { circuitId, purpose, wanted } = given;
  const circuit = await tx.circuit.findUniqueOrThrow({
    where: { tenantId_id: { tenantId, id: circuitId } },
    select: { unit: { select: { siteId: true } } },
  });
  const id = desk.world.newId();
  await tx.visit.create({
    data: {
      tenantId,
      id,
      siteId: circuit.unit.siteId,
      purpose,
      state: 'proposed',
      version: 1,
      plannedMinutes: MINUTES[purpose],
      ...windowOf(wanted),
      createdAt: toDate(desk.recordedAt),
    },
  });
  await tx.visitCircuit.create({ data: { tenantId, visitId: id, circuitId } });
  await tx.visitDuty.createMany({ data: wanted.map((duty) => ({ tenantId, visitId: id, dutyId: duty.id })) });
  desk.changed('visit', id, 'made');
}

async function keepInStep(desk: Work, visit: VisitRow, wanted: readonly DutyRow[]): Promise<void> {
  const { tx, tenantId } = desk;
  const where = { tenantId_id: { tenantId, id: visit.id } };
  if (wanted.length === 0) {
    if (visit.visitDuties.length === 0) return;
    if (visit.state === 'proposed') {
      await tx.visit.update({ where, data: { state: 'cancelled', version: { increment: 1 } } });
    } else {
      const flag = visit.visitDuties.some((row) => row.duty.state === 'withdrawn')
        ? 'duty-withdrawn'
        : 'duty-discharged';
      const unflagged = { tenantId, visitId: visit.id, flag: null };
      if ((await tx.visitDuty.updateMany({ where: unflagged, data: { flag } })).count === 0) return;
    }
    desk.changed('visit', visit.id);
    return;
  }
  const ids = wanted.map((duty) => duty.id);
  const linked = visit.visitDuties.filter((row) => row.flag === null).map((row) => row.dutyId);
  const window = windowOf(wanted);
  const same = ids.length === linked.length && ids.every((id) => linked.includes(id));
  if (same && sameDate(visit.dueAt, window.dueAt) && sameDate(visit.opensAt, window.opensAt)) return;
  await tx.visitDuty.deleteMany({ where: { tenantId, visitId: visit.id, dutyId: { notIn: ids } } });
  await tx.visitDuty.updateMany({ where: { tenantId, visitId: visit.id }, data: { flag: null } });
  await tx.visitDuty.createMany({
    data: ids.map((dutyId) => ({ tenantId, visitId: visit.id, dutyId })),
    skipDuplicates: true,
  });
  await tx.visit.update({ where, data: { ...window, version: { increment: 1 } } });
  desk.changed('visit', visit.id);
}
const sameDate = (a: Date | null, b: Date | null): boolean => (a?.getTime() ?? null) === (b?.getTime() ?? null);
