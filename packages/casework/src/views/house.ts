/** The contractor's own house, as it is read: settings, locations, instruments. */
import type { InstrumentListView, LocationListView, SettingsView } from '@ullage/contracts';
import { dateToDay, toInstant } from '../pipeline/case.ts';
import type { Viewer } from './viewer.ts';

export async function settingsView({ tx, tenantId }: Viewer): Promise<SettingsView> {
  const row = await tx.tenant.findUniqueOrThrow({
    where: { id: tenantId },
    select: {
      massUnit: true,
      pressureUnit: true,
      temperatureUnit: true,
      vacuumUnit: true,
      shopExcessKpa: true,
      currency: true,
      gwpSet: true,
    },
  });
  // Checks of the table hold each unit to the list of the contract.
  return { ...row, shopExcessKpa: Number(row.shopExcessKpa) } as SettingsView;
}

const NAME = { select: { id: true, name: true } } as const;
const peopleOf = ({ tx, tenantId }: Viewer) =>
  tx.person.findMany({ where: { tenantId, active: true }, ...NAME, orderBy: [{ name: 'asc' }, { id: 'asc' }] });

export async function locationsView(viewer: Viewer): Promise<LocationListView> {
  const rows = await viewer.tx.location.findMany({
    where: { tenantId: viewer.tenantId },
    include: { keeper: NAME },
    orderBy: [{ name: 'asc' }, { id: 'asc' }],
  });
  return {
    items: rows.map(({ id, kind, name, elevationM, keeper }) => ({
      id,
      kind: kind as LocationListView['items'][number]['kind'],
      name,
      elevationM: Number(elevationM),
      keeper,
    })),
    people: await peopleOf(viewer),
  };
}

type Item = InstrumentListView['items'][number];
type Check = Item['checks'][number];
interface CheckRow {
  readonly fact: {
    id: string;
    kind: string;
    happenedAt: Date | null;
    happenedOn: Date | null;
    recordedAt: Date;
    body: unknown;
    visitId: string | null;
    byPerson: { name: string } | null;
    visit: { site: { timeZone: string } } | null;
  };
}
interface CheckBody {
  readonly result: Check['result'];
  readonly by?: string;
  readonly nextOn?: string;
  readonly note?: string;
}
function checkView({ world, tenant }: Viewer, { fact }: CheckRow): Check {
  const { result, by, nextOn, note } = fact.body as CheckBody;
  const zone = fact.visit?.site.timeZone ?? tenant.timeZone;
  return {
    id: fact.id,
    what: fact.kind === 'calibration' ? 'calibration' : 'check',
    on: fact.happenedOn
      ? dateToDay(fact.happenedOn)
      : world.calendar.dayOf(toInstant(fact.happenedAt ?? fact.recordedAt), zone),
    result,
    by: by ?? fact.byPerson?.name ?? '',
    visitId: fact.visitId,
    nextOn: nextOn ?? null,
    note: note ?? null,
  };
}

const CHECKS = 12;
const newestFirst = (one: Check, other: Check): number => (one.on < other.on ? 1 : one.on > other.on ? -1 : 0);

/** Those in use first, then those that were retired. */
export async function instrumentsView(viewer: Viewer): Promise<InstrumentListView> {
  const { tx, tenantId, world, now, tenant } = viewer;
  const rows = await tx.instrument.findMany({
    where: { tenantId },
    include: {
      carrier: NAME,
      factRefs: {
        where: { role: 'instrument', fact: { kind: { in: ['tool-check', 'calibration'] } } },
        select: {
          fact: {
            select: {
              id: true,
              kind: true,
              happenedAt: true,
              happenedOn: true,
              recordedAt: true,
              body: true,
              visitId: true,
              byPerson: { select: { name: true } },
              visit: { select: { site: { select: { timeZone: true } } } },
            },
          },
        },
        orderBy: { fact: { recordedAt: 'desc' } },
      },
    },
    orderBy: [{ retiredAt: { sort: 'asc', nulls: 'first' } }, { tag: 'asc' }],
  });
  return {
    items: rows.map((row) => ({
      id: row.id,
      kind: row.kind as Item['kind'],
      tag: row.tag,
      senseGramsPerYear: row.senseGramsPerYear === null ? null : Number(row.senseGramsPerYear),
      carrier: row.carrier,
      madeOn: row.madeOn ? dateToDay(row.madeOn) : null,
      retiredAt: row.retiredAt ? toInstant(row.retiredAt) : null,
      checks: row.factRefs
        .map((ref) => checkView(viewer, ref))
        .sort(newestFirst)
        .slice(0, CHECKS),
    })),
    people: await peopleOf(viewer),
    today: world.calendar.dayOf(now, tenant.timeZone),
  };
}
