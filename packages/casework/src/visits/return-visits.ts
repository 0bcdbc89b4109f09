import { txWrite } from '@ullage/database';
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
function openDuties(desk: Work, circuitIds: readonly string[]) {
  return desk.tx.duty.findMany({
    where: { tenantId: desk.tenantId, circuitId: { in: [...circuitIds] }, state: 'open' },
    orderBy: [{ dueAt: 'asc' }, { id: 'asc' }],
  });
}

/** Circuits and where they stand. */
type Places = readonly { readonly circuitId: string; readonly siteId: string }[];

/**
 * Keeps the return visits of circuits in step with their duties: new duties get a proposed visit, a visit whose duties
 * are all gone leaves the list when nobody was placed on it and is flagged when somebody was, and a visit placed for a
 * withdrawn duty is linked to the duty that took its place where kind and circuit agree.
 */
export async function proposeReturns(desk: Work, places: Places): Promise<void> {
  const now = desk.world.calendar.epochMs(desk.recordedAt);
  const circuitIds = places.map(({ circuitId }) => circuitId);
  const duties = (await openDuties(desk, circuitIds)).filter(
    (duty) =>
      PURPOSE[duty.kind] !== undefined && duty.dueAt !== null && duty.dueAt.getTime() - AHEAD_DAYS * DAY_MS <= now,
  );
  const visits = await activeReturns(desk, circuitIds);
  const visited = await circuitsOnSite(desk, circuitIds);
  const proposals: Proposal[] = [];
  // A visit to several circuits is to discharge the duties of all.
  const steps = new Map<string, Step>();
  for (const place of places) {
    const { circuitId } = place;
    for (const purpose of Object.keys(MINUTES) as Purpose[]) {
      const wanted = duties.filter((duty) => duty.circuitId === circuitId && PURPOSE[duty.kind] === purpose);
      const visit = visits.find((row) => row.purpose === purpose && goesTo(row, circuitId));
      if (visit) steps.set(visit.id, { visit, wanted: [...(steps.get(visit.id)?.wanted ?? []), ...wanted] });
      // Whoever is on site may be discharging them this minute; a visit is proposed once they leave.
      else if (wanted.length > 0 && !(purpose === 'repair' && visited.has(circuitId)))
        proposals.push({ ...place, id: desk.world.newId(), purpose, wanted });
    }
  }
  await propose(desk, proposals);
  await keepInStep(desk, [...steps.values()]);
}

function activeReturns(desk: Work, circuitIds: readonly string[]) {
  return desk.tx.visit.findMany({
    where: {
      tenantId: desk.tenantId,
      purpose: { in: Object.keys(MINUTES) },
      state: { in: ['proposed', 'placed'] },
      visitCircuits: { some: { circuitId: { in: [...circuitIds] } } },
    },
    include: { visitDuties: { include: { duty: true } }, visitCircuits: { select: { circuitId: true } } },
    orderBy: [{ createdAt: 'asc' }, { id: 'asc' }],
  });
}
type VisitRow = Awaited<ReturnType<typeof activeReturns>>[number];
const goesTo = (visit: VisitRow, id: string): boolean => visit.visitCircuits.some(({ circuitId }) => circuitId === id);

/** Of some circuits those at which somebody works just now. */
async function circuitsOnSite({ tx, tenantId }: Work, circuitIds: readonly string[]): Promise<ReadonlySet<string>> {
  const where = { tenantId, circuitId: { in: [...circuitIds] }, visit: { state: 'on-site' } };
  const rows = await tx.visitCircuit.findMany({ where, select: { circuitId: true } });
  return new Set(rows.map(({ circuitId }) => circuitId));
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

interface Proposal {
  readonly id: string;
  readonly circuitId: string;
  readonly siteId: string;
  readonly purpose: Purpose;
  readonly wanted: readonly DutyRow[];
}
async function propose(desk: Work, proposals: readonly Proposal[]): Promise<void> {
  if (proposals.length === 0) return;
  const { tx, tenantId } = desk;
  const createdAt = toDate(desk.recordedAt);
  await tx.visit.createMany({
    data: proposals.map(({ id, siteId, purpose, wanted }) => {
      const state = { state: 'proposed', version: 1, plannedMinutes: MINUTES[purpose] };
      return { tenantId, id, siteId, purpose, ...state, ...windowOf(wanted), createdAt };
    }),
  });
  await tx.visitCircuit.createMany({
    data: proposals.map(({ id: visitId, circuitId }) => ({ tenantId, visitId, circuitId })),
  });
  await tx.visitDuty.createMany({ data: proposals.flatMap(({ id, wanted }) => linksOf(tenantId, id, wanted)) });
  for (const { id } of proposals) desk.changed('visit', id, 'made');
}
const linksOf = (tenantId: string, visitId: string, duties: readonly { readonly id: string }[]) =>
  duties.map(({ id: dutyId }) => ({ tenantId, visitId, dutyId }));

/** A visit that stands, and the open duties it is to discharge. */
interface Step {
  readonly visit: VisitRow;
  readonly wanted: readonly DutyRow[];
}
async function keepInStep(desk: Work, steps: readonly Step[]): Promise<void> {
  const done = steps.filter(({ visit, wanted }) => wanted.length === 0 && visit.visitDuties.length > 0);
  await cancel(
    desk,
    done.filter(({ visit }) => visit.state === 'proposed'),
  );
  await flag(
    desk,
    done.filter(({ visit }) => visit.state !== 'proposed'),
  );
  await relink(
    desk,
    steps.filter(({ visit, wanted }) => wanted.length > 0 && !isInStep(visit, wanted)),
  );
}

const idsOf = (steps: readonly Step[]): string[] => steps.map(({ visit }) => visit.id);

async function cancel(desk: Work, steps: readonly Step[]): Promise<void> {
  if (steps.length === 0) return;
  const ids = idsOf(steps);
  const where = { tenantId: desk.tenantId, id: { in: ids } };
  await desk.tx.visit.updateMany({ where, data: { state: 'cancelled', version: { increment: 1 } } });
  for (const id of ids) desk.changed('visit', id);
}

/** Somebody was placed on it: a person decides what becomes of the visit. */
async function flag(desk: Work, steps: readonly Step[]): Promise<void> {
  const unflagged = steps.filter(({ visit }) => visit.visitDuties.some((row) => row.flag === null));
  const byFlag = Map.groupBy(unflagged, ({ visit }) =>
    visit.visitDuties.some((row) => row.duty.state === 'withdrawn') ? 'duty-withdrawn' : 'duty-discharged',
  );
  for (const [text, those] of byFlag) {
    const where = { tenantId: desk.tenantId, visitId: { in: idsOf(those) }, flag: null };
    await desk.tx.visitDuty.updateMany({ where, data: { flag: text } });
    for (const id of idsOf(those)) desk.changed('visit', id);
  }
}

function isInStep(visit: VisitRow, wanted: readonly DutyRow[]): boolean {
  const ids = wanted.map((duty) => duty.id);
  const linked = visit.visitDuties.filter((row) => row.flag === null).map((row) => row.dutyId);
  const window = windowOf(wanted);
  const same = ids.length === linked.length && ids.every((id) => linked.includes(id));
  return same && sameDate(visit.dueAt, window.dueAt) && sameDate(visit.opensAt, window.opensAt);
}
const sameDate = (a: Date | null, b: Date | null): boolean => (a?.getTime() ?? null) === (b?.getTime() ?? null);

const WINDOWS = `
UPDATE visit SET opens_at = given."opensAt", due_at = given."dueAt", version = visit.version + 1
FROM jsonb_to_recordset($2) AS given (id uuid, "opensAt" timestamptz, "dueAt" timestamptz)
WHERE visit.tenant_id = $1 AND visit.id = given.id`;

async function relink(desk: Work, steps: readonly Step[]): Promise<void> {
  if (steps.length === 0) return;
  const { tx, tenantId } = desk;
  const stale = steps.flatMap(({ visit, wanted }) =>
    linksOf(tenantId, visit.id, visit.visitDuties.map((row) => row.duty).filter(isNoneOf(wanted))),
  );
  const fresh = steps.flatMap(({ visit, wanted }) =>
    linksOf(tenantId, visit.id, wanted.filter(isNoneOf(visit.visitDuties.map((row) => row.duty)))),
  );
  if (stale.length > 0) await tx.visitDuty.deleteMany({ where: { OR: stale } });
  await tx.visitDuty.updateMany({ where: { tenantId, visitId: { in: idsOf(steps) } }, data: { flag: null } });
  if (fresh.length > 0) await tx.visitDuty.createMany({ data: fresh });
  const windows = steps.map(({ visit, wanted }) => ({ id: visit.id, ...windowOf(wanted) }));
  await txWrite(tx, WINDOWS, [tenantId, JSON.stringify(windows)]);
  for (const id of idsOf(steps)) desk.changed('visit', id);
}
const isNoneOf =
  (others: readonly { readonly id: string }[]) =>
  ({ id }: { readonly id: string }): boolean =>
    !others.some((other) => other.id === id);
