import type { ReturnItem, ReturnsView } from '@ullage/contracts';
import { orderBySlack, RESERVE_MINUTES, slackOf, travelMinutes, WORKING_DAY } from '@ullage/roster';
import { dateToDay, toInstant } from '../pipeline/case.ts';
import { HELD, onRoster, placeOf } from '../visits/placing.ts';
import { feedNumber } from './viewer.ts';
import type { Viewer } from './viewer.ts';
import { certificateText, HEAD_INCLUDE, visitHead } from './visit.ts';
import { DUTY_WORDS, wordOf } from './words.ts';

/** Due soon below this much slack (common practice for booking a technician); the firm's own figure comes with settings. */
const SOON_MINUTES = 7 * 24 * 60;
const DAY_MS = 86_400_000;

function openReturns(viewer: Viewer) {
  const { tx, tenantId } = viewer;
  return tx.visit.findMany({
    where: {
      tenantId,
      state: { in: ['proposed', 'placed', 'on-site'] },
      purpose: { not: 'call' },
      visitDuties: { some: {} },
    },
    include: { ...HEAD_INCLUDE, visitDuties: { include: { duty: true }, orderBy: { dutyId: 'asc' } } },
  });
}
type ReturnRow = Awaited<ReturnType<typeof openReturns>>[number];

const FLAGS: Readonly<Record<string, string>> = {
  'duty-withdrawn': 'The duty was withdrawn by a later fact. Take the visit off the plan, or keep it.',
  'duty-discharged': 'The duty is discharged already. Take the visit off the plan, or keep it.',
};

function stateOf(row: ReturnRow, slackMinutes: number): ReturnItem['state'] {
  if (row.state === 'on-site') return 'live';
  if (slackMinutes < 0) return 'late';
  if (row.state === 'placed') return 'planned';
  return slackMinutes < SOON_MINUTES ? 'soon' : 'fine';
}

function returnItem(viewer: Viewer, row: ReturnRow): ReturnItem[] {
  const duties = row.visitDuties.map((link) => link.duty);
  const open = duties.filter((duty) => duty.state === 'open' && duty.dueAt !== null);
  const [first] = (open.length > 0 ? open : duties).sort(
    (a, b) => (a.dueAt?.getTime() ?? 0) - (b.dueAt?.getTime() ?? 0),
  );
  const [link] = row.visitCircuits;
  if (!first?.dueAt || !first.dueOn || !link) return [];
  const dueAt = toInstant(first.dueAt);
  const driveMinutes = travelMinutes(null, placeOf(row.site));
  const slackMinutes = slackOf(
    { dueAt, now: viewer.now, driveMinutes, workMinutes: row.plannedMinutes, reserveMinutes: RESERVE_MINUTES },
    viewer.world.calendar,
  );
  const flag = row.visitDuties.find((duty) => duty.flag !== null)?.flag ?? null;
  return [
    {
      visit: visitHead(viewer, row),
      circuitId: link.circuitId,
      circuitTag: `${link.circuit.unit.tag}-${link.circuit.letter}`,
      unitId: link.circuit.unitId,
      title: [...new Set((open.length > 0 ? open : duties).map((duty) => wordOf(DUTY_WORDS, duty.kind)))].join(', '),
      why: first.why,
      clause: first.clause,
      opensAt: toInstant(row.opensAt ?? first.sinceAt),
      dueAt,
      dueOn: dateToDay(first.dueOn),
      provisional: first.provisional,
      driveMinutes,
      workMinutes: row.plannedMinutes,
      reserveMinutes: RESERVE_MINUTES,
      slackMinutes,
      state: stateOf(row, slackMinutes),
      flag: flag === null ? null : (FLAGS[flag] ?? flag),
    },
  ];
}

/** Return visits by slack, calls nobody has yet, and who goes where this week. */
export async function returnsView(viewer: Viewer, { weekOf }: { weekOf?: string }): Promise<ReturnsView> {
  const { tx, tenantId, tenant } = viewer;
  const { calendar } = viewer.world;
  const items = (await openReturns(viewer)).flatMap((row) => returnItem(viewer, row));
  const byId = new Map(items.map((item) => [item.visit.id, item]));
  const rows = items.map((item) => ({ id: item.visit.id, dueAt: item.dueAt, slackMinutes: item.slackMinutes }));
  const ordered = orderBySlack(rows, viewer.now, calendar).flatMap((row) => byId.get(row.id) ?? []);
  const calls = await tx.visit.findMany({
    where: { tenantId, state: 'proposed', purpose: 'call' },
    include: HEAD_INCLUDE,
    orderBy: { createdAt: 'asc' },
  });
  const today = calendar.dayOf(viewer.now, tenant.timeZone);
  const fromDay = weekOf ?? today;
  return {
    now: viewer.now,
    timeZone: tenant.timeZone,
    number: await feedNumber(viewer),
    items: ordered,
    calls: calls.map((row) => visitHead(viewer, row)),
    people: await rosterPeople(viewer, calendar.epochMs(calendar.startOf(fromDay, tenant.timeZone))),
    week: { fromDay, days: [0, 1, 2, 3, 4, 5, 6].map((offset) => calendar.addDays(fromDay, offset)) },
    workingDay: { from: WORKING_DAY.from, to: WORKING_DAY.to },
  };
}

const SHOWN_DAYS = 21;
async function rosterPeople(
  { tx, tenantId, tenant, now, world }: Viewer,
  fromMs: number,
): Promise<ReturnsView['people']> {
  const people = await tx.person.findMany({
    where: onRoster(tenantId),
    include: {
      certificates: HELD,
      visitPersons: {
        where: {
          visit: {
            state: { not: 'cancelled' },
            plannedStart: { gte: new Date(fromMs - DAY_MS), lt: new Date(fromMs + SHOWN_DAYS * DAY_MS) },
          },
        },
        include: {
          visit: { include: { site: true, visitCircuits: { include: { circuit: { include: { unit: true } } } } } },
        },
      },
    },
    orderBy: [{ name: 'asc' }, { id: 'asc' }],
  });
  const today = world.calendar.dayOf(now, tenant.timeZone);
  return people.map((person) => ({
    id: person.id,
    name: person.name,
    certificates: certificateText(person.certificates, today),
    stops: person.visitPersons
      .map(({ visit }) => ({
        visitId: visit.id,
        label: visit.visitCircuits.map(({ circuit }) => `${circuit.unit.tag}-${circuit.letter}`).join(', '),
        siteName: visit.site.name,
        startsAt: toInstant(visit.plannedStart ?? visit.createdAt),
        minutes: visit.plannedMinutes,
        state: visit.state,
        version: visit.version,
      }))
      .sort((a, b) => (a.startsAt < b.startsAt ? -1 : 1)),
  }));
}
