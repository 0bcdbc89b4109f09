import type { PlacesView, UnitListView, UnitView } from '@ullage/contracts';
import type { EnteredMass } from '@ullage/units';
import type { PageQuery } from '../office.ts';
import { dateToDay, notFound, toInstant } from '../pipeline/case.ts';
import { circuitViews } from './circuit.ts';
import { loadSite, siteView } from './site.ts';
import { feedNumber } from './viewer.ts';
import type { Viewer } from './viewer.ts';
import { DUTY_WORDS, PURPOSE_WORDS, wordOf } from './words.ts';
import { LATEST_FULL_CHARGE } from '../law/latest-full-charge.ts';

export async function unitView(viewer: Viewer, unitId: string): Promise<UnitView> {
  const { tx, tenantId } = viewer;
  const unit = await tx.unit.findUnique({
    where: { tenantId_id: { tenantId, id: unitId } },
    include: { circuits: { where: { withdrawnAt: null }, orderBy: { letter: 'asc' } } },
  });
  const site = unit && !unit.withdrawnAt && (await loadSite(tx, tenantId, unit.siteId));
  if (!unit || !site) throw notFound();
  const circuits = await circuitViews(
    viewer,
    unit.circuits.map(({ id }) => id),
  );
  const visits = await tx.visit.findMany({
    where: { tenantId, visitCircuits: { some: { circuit: { unitId } } }, state: { not: 'cancelled' } },
    include: { visitPersons: { include: { person: true } } },
    orderBy: { createdAt: 'desc' },
    take: 50,
  });
  return {
    id: unit.id,
    tag: unit.tag,
    description: unit.description,
    site: siteView(site),
    circuits: circuits.map(({ view }) => view),
    visits: visits.map((visit) => {
      const at = visit.startedAt ?? visit.plannedStart;
      return {
        id: visit.id,
        purpose: wordOf(PURPOSE_WORDS, visit.purpose),
        state: visit.state,
        at: at ? toInstant(at) : null,
        people: visit.visitPersons.map((row) => row.person.name),
      };
    }),
    now: viewer.now,
    number: await feedNumber(viewer),
  };
}

const PAGE = 100;
const matching = (query: string | undefined) =>
  query === undefined || query === '' ? undefined : { contains: query, mode: 'insensitive' as const };

/** Circuits by unit, a page at a time. The cursor is the last circuit's id. */
export async function unitList(viewer: Viewer, { query, after }: PageQuery): Promise<UnitListView> {
  const { tx, tenantId } = viewer;
  const text = matching(query);
  const rows = await tx.circuit.findMany({
    where: {
      tenantId,
      withdrawnAt: null,
      ...(after === undefined ? {} : { id: { gt: after } }),
      ...(text
        ? {
            OR: [
              { unit: { tag: text } },
              { unit: { site: { name: text } } },
              { unit: { site: { customer: { name: text } } } },
            ],
          }
        : {}),
    },
    include: {
      unit: { include: { site: { include: { customer: true } } } },
      fullCharges: LATEST_FULL_CHARGE,
      calculations: { where: { standing: true }, orderBy: { onDay: 'desc' }, take: 1 },
      duties: { where: { state: 'open', dueAt: { not: null } }, orderBy: { dueAt: 'asc' }, take: 1 },
    },
    orderBy: { id: 'asc' },
    take: PAGE + 1,
  });
  const shown = rows.slice(0, PAGE);
  return {
    items: shown.map((row) => {
      const [full] = row.fullCharges;
      const [calculation] = row.calculations;
      const [duty] = row.duties;
      return {
        unitId: row.unitId,
        circuitId: row.id,
        tag: `${row.unit.tag}-${row.letter}`,
        description: row.unit.description,
        site: row.unit.site.name,
        customer: row.unit.site.customer.name,
        refrigerant: row.refrigerant,
        fullCharge: { value: full?.value ?? '0', unit: (full?.unit ?? 'lb') as EnteredMass['unit'] },
        rateText: calculation ? Number(calculation.rateText).toFixed(2) : null,
        over: calculation?.over ?? null,
        nextDuty:
          duty?.dueAt && duty.dueOn
            ? { title: wordOf(DUTY_WORDS, duty.kind), dueOn: dateToDay(duty.dueOn), dueAt: toInstant(duty.dueAt) }
            : null,
      };
    }),
    next: rows.length > PAGE ? (shown.at(-1)?.id ?? null) : null,
  };
}

const OFFERED = 30;
/** What the call form offers as the caller is typed. */
export async function placesView({ tx, tenantId }: Viewer, { query }: PageQuery): Promise<PlacesView> {
  const text = matching(query);
  const customers = await tx.customer.findMany({
    where: {
      tenantId,
      withdrawnAt: null,
      ...(text
        ? {
            OR: [
              { name: text },
              { sites: { some: { OR: [{ name: text }, { address: text }, { units: { some: { tag: text } } }] } } },
            ],
          }
        : {}),
    },
    orderBy: { name: 'asc' },
    take: OFFERED,
  });
  const sites = await tx.site.findMany({
    where: { tenantId, withdrawnAt: null, customerId: { in: customers.map((row) => row.id) } },
    include: {
      units: {
        where: { withdrawnAt: null },
        include: {
          circuits: {
            where: { withdrawnAt: null },
            include: { fullCharges: LATEST_FULL_CHARGE },
            orderBy: { letter: 'asc' },
          },
        },
        orderBy: { tag: 'asc' },
      },
    },
    orderBy: { name: 'asc' },
    take: OFFERED * 3,
  });
  return {
    customers: customers.map(({ id, name }) => ({ id, name })),
    sites: sites.map(({ id, customerId, name, address, timeZone }) => ({ id, customerId, name, address, timeZone })),
    units: sites.flatMap((site) =>
      site.units.map((unit) => ({
        id: unit.id,
        siteId: site.id,
        tag: unit.tag,
        description: unit.description,
        circuits: unit.circuits.map((circuit) => ({
          id: circuit.id,
          letter: circuit.letter,
          refrigerant: circuit.refrigerant,
          use: circuit.use,
          fullCharge: {
            value: circuit.fullCharges[0]?.value ?? '0',
            unit: (circuit.fullCharges[0]?.unit ?? 'lb') as EnteredMass['unit'],
          },
        })),
      })),
    ),
  };
}
