import { HELD } from '../visits/placing.ts';
import type { GlanceView, OverrideRule, SearchFacts, VisitHead, VisitListView, VisitView } from '@ullage/contracts';
import { dayWords, toKelvin } from '@ullage/units';
import type { Day } from '@ullage/units';
import type { Pressure, Temperature } from '@ullage/contracts';
import { dateToDay, notFound, toInstant } from '../pipeline/case.ts';
import { readAgainst, readingKpa } from '../commands/site-readings.ts';
import { branchOf } from '../visits/branch.ts';
import { circuitViews } from './circuit.ts';
import { repeatabilityOf } from './cylinder-instruments.ts';
import { FACT_INCLUDE } from './fact-row.ts';
import { factViews, leakPointView } from './history.ts';
import { dutiesOf, headroomOf } from './law.ts';
import { searchFactsOf } from './search-facts.ts';
import { loadSite, siteView } from './site.ts';
import { feedNumber } from './viewer.ts';
import type { Viewer } from './viewer.ts';
import { CERTIFICATE_WORDS, PURPOSE_WORDS, wordOf } from './words.ts';

export const HEAD_INCLUDE = {
  site: { include: { customer: true } },
  visitPersons: { include: { person: { include: { certificates: HELD } } }, orderBy: { personId: 'asc' } },
  visitOverrides: { orderBy: { rule: 'asc' } },
  visitCircuits: { include: { circuit: { include: { unit: true } } }, orderBy: { circuitId: 'asc' } },
} as const;
const headRow = (viewer: Viewer, id: string) =>
  viewer.tx.visit.findUnique({ where: { tenantId_id: { tenantId: viewer.tenantId, id } }, include: HEAD_INCLUDE });
export type HeadRow = NonNullable<Awaited<ReturnType<typeof headRow>>>;

interface Paper {
  readonly type: string;
  readonly registeredOn: Date | null;
  readonly endsOn: Date | null;
}
/** How a certificate stands on a day by its own days; an apprentice's two years are the roster's to count. */
export function standingOf({ registeredOn, endsOn }: Omit<Paper, 'type'>, on: Day): 'holds' | 'ended' | 'not-yet' {
  if (endsOn && dateToDay(endsOn) < on) return 'ended';
  return registeredOn && dateToDay(registeredOn) > on ? 'not-yet' : 'holds';
}
/** What somebody holds on a day, in words: of work done, what they held then. */
export function certificateText(rows: readonly Paper[], on: Day): string {
  const held = rows.filter((row) => standingOf(row, on) === 'holds');
  const words = [...new Set(held.map((row) => wordOf(CERTIFICATE_WORDS, row.type)))].join(', ');
  if (words !== '') return words;
  return rows.some((row) => standingOf(row, on) === 'ended') ? 'certificate ended' : 'no certificate';
}
const instantOrNull = (at: Date | null): string | null => (at ? toInstant(at) : null);

export function visitHead({ now, world }: Viewer, row: HeadRow): VisitHead {
  const on = world.calendar.dayOf(instantOrNull(row.startedAt ?? row.plannedStart) ?? now, row.site.timeZone);
  return {
    id: row.id,
    purpose: row.purpose as VisitHead['purpose'],
    purposeText: wordOf(PURPOSE_WORDS, row.purpose),
    state: row.state as VisitHead['state'],
    version: row.version,
    symptom: row.symptom,
    startsAt: instantOrNull(row.plannedStart),
    minutes: row.plannedMinutes,
    opensAt: instantOrNull(row.opensAt),
    dueAt: instantOrNull(row.dueAt),
    startedAt: instantOrNull(row.startedAt),
    finishedAt: instantOrNull(row.finishedAt),
    people: row.visitPersons.map((placed) => ({
      personId: placed.personId,
      name: placed.person.name,
      certificates:
        row.state === 'placed' && !placed.person.active ? 'has left' : certificateText(placed.person.certificates, on),
    })),
    overrides: row.visitOverrides.map(({ rule, reason }) => ({ rule: rule as OverrideRule, reason })),
    circuitTags: row.visitCircuits.map(({ circuit }) => `${circuit.unit.tag}-${circuit.letter}`),
    siteName: row.site.name,
    customerName: row.site.customer.name,
    timeZone: row.site.timeZone,
  };
}

const LISTED = 200;
/** Visits of a day (in each site's own zone), or of a person, or all that are not closed. */
export async function visitList(viewer: Viewer, asked: { day?: string; personId?: string }): Promise<VisitListView> {
  const { tx, tenantId } = viewer;
  const rows = await tx.visit.findMany({
    where: {
      tenantId,
      ...(asked.day === undefined
        ? { state: { in: ['proposed', 'placed', 'on-site'] } }
        : { plannedStart: dayRange(asked.day), state: { not: 'cancelled' } }),
      ...(asked.personId === undefined ? {} : { visitPersons: { some: { personId: asked.personId } } }),
    },
    include: HEAD_INCLUDE,
    orderBy: [{ plannedStart: 'asc' }, { id: 'asc' }],
    take: LISTED,
  });
  const heads = rows.map((row) => visitHead(viewer, row));
  const onDay = (head: VisitHead): boolean =>
    asked.day === undefined ||
    (head.startsAt !== null && viewer.world.calendar.dayOf(head.startsAt, head.timeZone) === asked.day);
  return { items: heads.filter(onDay), now: viewer.now };
}
/** Wide enough for any zone; the exact day is then decided in the site's own. */
function dayRange(day: string): { gte: Date; lt: Date } {
  const noon = Date.parse(`${day}T12:00:00Z`);
  const day36h = 36 * 3_600_000;
  return { gte: new Date(noon - day36h), lt: new Date(noon + day36h) };
}

const few = <T>(items: readonly T[]): { items: T[]; more: number } => ({
  items: items.slice(0, 3),
  more: Math.max(0, items.length - 3),
});

/** What a technician knows before opening the unit. */
function glanceOf(
  viewer: Viewer,
  { view: circuit, file }: Awaited<ReturnType<typeof circuitViews>>[number],
  given: { visitId: string; search: ReadonlyMap<string, SearchFacts> },
): GlanceView {
  const { visitId } = given;
  const search = given.search.get(circuit.id);
  if (!search) throw new Error('a circuit of the visit was not read for the search');
  const earlier = circuit.additions.filter((addition) => addition.visitId !== visitId);
  const clear = circuit.looks.filter((look) => look.result === 'clear');
  return {
    circuitId: circuit.id,
    tag: circuit.tag,
    refrigerant: circuit.refrigerant,
    fullCharge: circuit.fullCharge.mass,
    additions: few(earlier),
    leakPoints: few(circuit.leakPoints),
    clearLooks: few(clear),
    ...headroomOf(viewer, file, visitId),
    search,
  };
}

export async function visitView(viewer: Viewer, visitId: string): Promise<VisitView> {
  const { tx, tenantId } = viewer;
  const row = await headRow(viewer, visitId);
  const site = row && (await loadSite(tx, tenantId, row.siteId));
  if (!row || !site) throw notFound();
  const circuitIds = row.visitCircuits.map((link) => link.circuitId);
  const zone = site.timeZone;
  const facts = await tx.fact.findMany({
    where: { tenantId, visitId },
    include: FACT_INCLUDE,
    orderBy: [{ happenedAt: 'asc' }, { recordedAt: 'asc' }, { id: 'asc' }],
  });
  const tested = await tx.fact.findMany({
    where: { tenantId, circuitId: { in: circuitIds }, kind: { in: ['repair', 'verification'] } },
    include: FACT_INCLUDE,
  });
  const leaks = await tx.leakPoint.findMany({
    where: { tenantId, circuitId: { in: circuitIds } },
    orderBy: { number: 'asc' },
  });
  const instruments = await tx.instrument.findMany({ where: { tenantId, retiredAt: null }, orderBy: { tag: 'asc' } });
  const circuits = await circuitViews(viewer, circuitIds);
  const search = await searchFactsOf(
    viewer,
    circuits.map(({ view }) => view),
    { visitId, site: row.site, personIds: row.visitPersons.map(({ personId }) => personId), facts, instruments },
  );
  const duties = await dutiesOf(viewer, { circuitIds });
  const commands = await tx.command.findMany({
    where: { tenantId, id: { in: facts.map((fact) => fact.id) } },
    select: { answer: true },
  });
  const asks = commands.flatMap((command) => (command.answer as { asks?: VisitView['asks'] } | null)?.asks ?? []);
  return {
    visit: visitHead(viewer, row),
    site: siteView(site),
    glances: circuits.map((circuit) => glanceOf(viewer, circuit, { visitId, search })),
    leakPoints: leaks.map((leak) => leakPointView(viewer, leak, { zone, facts: tested })),
    facts: factViews(viewer, facts, zone),
    branch: branchFrom(facts, row),
    explains: circuits.find(({ view }) => view.explains !== null)?.view.explains?.text ?? null,
    duties: duties.map(({ circuitId: _of, ...duty }) => duty),
    asks: [...new Map(asks.map((ask) => [ask.code, ask])).values()],
    instruments: instruments.map((tool) => ({
      id: tool.id,
      kind: tool.kind,
      tag: tool.tag,
      senseGramsPerYear: tool.senseGramsPerYear === null ? null : Number(tool.senseGramsPerYear),
      repeatability: repeatabilityOf(tool),
    })),
    outcome: await outcomeOf(viewer, { visitId, circuitIds }),
    now: viewer.now,
    number: await feedNumber(viewer),
  };
}

type FactRows = readonly { kind: string; body: unknown }[];
/** The branch of the search that the last first readings lead to. */
function branchFrom(facts: FactRows, row: HeadRow): VisitView['branch'] {
  const first = facts.findLast(
    (fact) => fact.kind === 'readings' && (fact.body as { stage: string }).stage === 'first',
  );
  const body = first?.body as { standing?: Pressure; ambient?: Temperature } | undefined;
  const refrigerant = row.visitCircuits[0]?.circuit.refrigerant;
  if (!body?.standing || !body.ambient || refrigerant === undefined) return null;
  const against = readAgainst(body, row.site);
  const standingKpa = readingKpa({ field: 'standing', label: 'Standing pressure', reading: body.standing }, against);
  const ambientK = toKelvin(Number(body.ambient.value), body.ambient.unit);
  return branchOf({ refrigerant, standingKpa, ambientK, ...against });
}

/** What the visit's addition came to: the standing calculation it gave rise to. */
async function outcomeOf(
  { tx, tenantId }: Viewer,
  { visitId, circuitIds }: { visitId: string; circuitIds: string[] },
): Promise<VisitView['outcome']> {
  const rows = await tx.calculation.findMany({
    where: { tenantId, circuitId: { in: circuitIds }, standing: true },
    orderBy: { onDay: 'desc' },
  });
  const own = rows.find((row) => (row.result as unknown as { visits: string[] }).visits.includes(visitId));
  if (!own) return null;
  const threshold = (own.result as unknown as { thresholdPercent: number }).thresholdPercent;
  const ratePercent = Number(own.rateText).toFixed(2);
  const verdict = own.over ? `over ${threshold} %` : `not over ${threshold} %`;
  return {
    ratePercent,
    over: own.over,
    text: `${ratePercent} % a year, ${verdict}, on ${dayWords(dateToDay(own.onDay))}.`,
    calculationId: own.id,
  };
}
