/** What "where to look next" stands on: this visit's looks, the unit's past, the contractor's own findings, the tools at hand. */
import type { CircuitView, Pressure, SearchFacts, Temperature } from '@ullage/contracts';
import { txQuery } from '@ullage/database';
import { saturation } from '@ullage/thermo';
import { EQUIPMENT_KINDS } from '@ullage/trail';
import type { EquipmentKind, LeakPlaceId } from '@ullage/trail';
import { toKelvin } from '@ullage/units';
import { readAgainst, readingKpa } from '../commands/site-readings.ts';
import { toDate, toInstant } from '../pipeline/case.ts';
import { goneGramsPerYear } from './circuit.ts';
import { FACT_INCLUDE } from './fact-row.ts';
import type { FactRow } from './fact-row.ts';
import { FINDINGS } from './findings.sql.ts';
import { bodyOf } from './history.ts';
import type { LookBody } from './history.ts';
import { instrumentChecks } from '../recalls/checks.ts';
import { recordsOf } from './viewer.ts';
import type { Viewer } from './viewer.ts';

/** A clear look older than this says nothing of a leak that is looked for now. An assumption. */
const LOOKS_OF_DAYS = 365;
/** A leaking place that is not yet known to be tight. */
const OPEN: readonly string[] = ['open', 'deferred', 'declined'];

/** Where nobody said what it is, by what it is used for. */
function kindOf({ equipment, use }: { readonly equipment: string; readonly use: string }): EquipmentKind {
  const known = EQUIPMENT_KINDS.find((kind) => kind === equipment);
  if (known !== undefined && known !== 'other') return known;
  return use === 'comfort-cooling' ? 'split' : use.endsWith('-refrigeration') ? 'rack' : 'other';
}

export interface VisitForSearch {
  readonly visitId: string;
  readonly site: { readonly elevationM: unknown };
  readonly personIds: readonly string[];
  readonly facts: readonly FactRow[];
  readonly instruments: readonly Tool[];
}
interface Tool {
  readonly id: string;
  readonly kind: string;
  readonly tag: string;
  readonly carrierId: string | null;
  readonly senseGramsPerYear: unknown;
}

const toolsOf = (row: FactRow): string[] =>
  row.factRefs.flatMap(({ role, instrumentId }) =>
    role === 'instrument' && instrumentId !== null ? [instrumentId] : [],
  );

function lookOf(row: FactRow, visitId: string): SearchFacts['looks'][number] {
  const body = row.body as LookBody;
  const [instrumentId] = toolsOf(row);
  return {
    at: toInstant(row.happenedAt ?? row.recordedAt),
    earlierVisit: row.visitId !== visitId,
    places: body.places as LeakPlaceId[],
    method: body.method as SearchFacts['looks'][number]['method'],
    ...(instrumentId !== undefined && { instrumentId }),
    ...(body.sensitivityGramsPerYear !== undefined && { senseGramsPerYear: body.sensitivityGramsPerYear }),
    unitState: body.unitState as SearchFacts['unitState'],
    result: body.result,
  };
}

/** Places that leak now, as far as is known, and those that leaked before. */
function leaksOf({ leakPoints }: CircuitView, visit: VisitForSearch): Pick<SearchFacts, 'leaks' | 'signs'> {
  const here = new Set(visit.facts.flatMap(({ factRefs }) => factRefs.map((ref) => ref.leakPointId)));
  const known = leakPoints.filter(({ place }) => place !== 'unknown');
  const isNow = (leak: (typeof known)[number]): boolean => OPEN.includes(leak.state) || here.has(leak.id);
  return {
    leaks: known.filter(isNow).map(({ place, lowGramsPerYear, highGramsPerYear }) => ({
      place: place as LeakPlaceId,
      ...(lowGramsPerYear !== null && { lowGramsPerYear }),
      ...(highGramsPerYear !== null && { highGramsPerYear }),
    })),
    signs: known
      .filter((leak) => !isNow(leak))
      .map(({ place }) => ({ place: place as LeakPlaceId, sign: 'repaired-before' as const })),
  };
}

/** What is inside by the last first readings; unknown once gas was taken out or put in. */
function conditionsOf(circuit: CircuitView, { facts, site }: VisitForSearch): SearchFacts['conditions'] {
  const own = facts.filter(({ circuitId }) => circuitId === circuit.id);
  if (own.some(({ kind }) => kind === 'recovery')) return {};
  if (own.some(({ kind }) => kind === 'charge')) return { inside: 'refrigerant' };
  const first = own.findLast((fact) => fact.kind === 'readings' && bodyOf(fact).stage === 'first');
  const { standing, ambient } = (first?.body ?? {}) as { standing?: Pressure; ambient?: Temperature };
  if (!standing || !ambient) return { inside: 'refrigerant' };
  const against = readAgainst(first?.body, site);
  const pressure = readingKpa({ field: 'standing', label: 'Standing pressure', reading: standing }, against);
  const lines = saturation({
    refrigerant: circuit.refrigerant,
    temperatureK: toKelvin(Number(ambient.value), ambient.unit),
  });
  return {
    inside: 'refrigerant',
    pressureKpaGauge: pressure - against.barometerKpa,
    ...(lines.ok && { saturationKpaGauge: lines.dewPressureKpa - against.barometerKpa }),
  };
}

/** Those the people of the visit carry or have used here, and those that earlier looks were made with. */
async function detectorsOf(
  viewer: Viewer,
  visit: VisitForSearch,
  looks: readonly FactRow[],
): Promise<SearchFacts['detectors']> {
  const checks = await instrumentChecks(recordsOf(viewer));
  const used = new Set(visit.facts.flatMap(toolsOf));
  const looked = new Set(looks.flatMap(toolsOf));
  const isAtHand = ({ id, carrierId }: Tool): boolean =>
    used.has(id) || (carrierId !== null && visit.personIds.includes(carrierId));
  return visit.instruments
    .filter((tool) => tool.kind === 'detector' && (isAtHand(tool) || looked.has(tool.id)))
    .map((tool) => ({
      id: tool.id,
      tag: tool.tag,
      atHand: isAtHand(tool),
      ...(tool.senseGramsPerYear !== null && { senseGramsPerYear: Number(tool.senseGramsPerYear) }),
      checks: (checks.get(tool.id) ?? []).map(({ at, result }) => ({ at, result })),
    }));
}

/** Of each circuit of a visit; in three statements, whatever the number of circuits. */
export async function searchFactsOf(
  viewer: Viewer,
  circuits: readonly CircuitView[],
  visit: VisitForSearch,
): Promise<ReadonlyMap<string, SearchFacts>> {
  const { tx, tenantId, now } = viewer;
  const since = new Date(toDate(now).getTime() - LOOKS_OF_DAYS * 86_400_000);
  const looks = await tx.fact.findMany({
    where: {
      tenantId,
      circuitId: { in: circuits.map(({ id }) => id) },
      kind: 'look',
      OR: [{ visitId: visit.visitId }, { happenedAt: { gte: since } }],
    },
    include: FACT_INCLUDE,
    orderBy: [{ happenedAt: 'asc' }, { id: 'asc' }],
  });
  const findings = await txQuery(tx, FINDINGS, [tenantId]);
  const detectors = await detectorsOf(viewer, visit, looks);
  return new Map(
    circuits.map((circuit) => {
      const own = looks.filter(({ circuitId }) => circuitId === circuit.id).map((row) => lookOf(row, visit.visitId));
      const equipment = kindOf(circuit);
      const gone = goneGramsPerYear(circuit.latest);
      return [
        circuit.id,
        {
          equipment,
          ...(gone !== null && { goneGramsPerYear: { low: gone, high: gone } }),
          findings: countsOf(findings.filter((row) => kindOf(row) === equipment)),
          ...leaksOf(circuit, visit),
          looks: own,
          detectors,
          unitState: own.findLast(({ earlierVisit }) => !earlierVisit)?.unitState ?? 'off',
          conditions: conditionsOf(circuit, visit),
        },
      ];
    }),
  );
}

function countsOf(rows: readonly { readonly place: string; readonly leaks: number }[]): SearchFacts['findings'] {
  const counts = new Map<string, number>();
  for (const { place, leaks } of rows) if (place !== 'unknown') counts.set(place, (counts.get(place) ?? 0) + leaks);
  return Object.fromEntries(counts);
}
