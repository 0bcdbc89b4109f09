/** The service record: what the contractor hands over at the end of a visit. Full charge and rate are the owner's. */
import type { ServiceRecordView } from '@ullage/contracts';
import { editionOn, RULEBOOK_IDS } from '@ullage/rulebook';
import { circuitFiles } from '../law/circuit-file.ts';
import { dateToDay, notFound, toInstant } from '../pipeline/case.ts';
import { certifiedOn } from './certified.ts';
import { correctedBy, FACT_INCLUDE } from './fact-row.ts';
import type { FactRow } from './fact-row.ts';
import { rulebooksOf } from './law.ts';
import { methodWordsOf } from './method-words.ts';
import { gasLines, gasTotals } from './record-gas.ts';
import { atOf, byOf, ofKind, partsOf, placesOf, tagOf } from './record-work.ts';
import type { Told } from './record-work.ts';
import { loadSite, siteView } from './site.ts';
import { summaryOf } from './summaries.ts';
import type { Viewer } from './viewer.ts';
import { HEAD_INCLUDE } from './visit.ts';
import type { HeadRow } from './visit.ts';

/** Written down about the work and no part of it: they neither date the record nor name who worked. */
const ABOUT: ReadonlySet<string> = new Set(['correction', 'set-aside', 'owner-told', 'consent']);

/** Items (i) to (vi) of 40 CFR 82.157(l)(2), the inspections and the tests. */
export async function serviceRecord(viewer: Viewer, visitId: string): Promise<ServiceRecordView> {
  const { tx, tenantId } = viewer;
  const visit = await tx.visit.findUnique({ where: { tenantId_id: { tenantId, id: visitId } }, include: HEAD_INCLUDE });
  const site = visit && (await loadSite(tx, tenantId, visit.siteId));
  if (!visit || !site) throw notFound();
  const facts = await tx.fact.findMany({
    where: { tenantId, visitId },
    include: FACT_INCLUDE,
    orderBy: [{ happenedAt: 'asc' }, { id: 'asc' }],
  });
  const told: Told = { facts, circuits: circuitsOf(visit) };
  const worked = facts.filter(({ kind }) => !ABOUT.has(kind));
  const days = daysOf(viewer, { visit, worked, zone: site.timeZone });
  const day = days[0] ?? '';
  const gas = gasLines(told);
  const there = [...visit.visitPersons.map(({ personId }) => personId), ...worked.map(({ byPersonId }) => byPersonId)];
  return {
    contractor: viewer.tenant.name,
    visitId,
    site: siteView(site),
    units: visit.visitCircuits.map(({ circuit }) => ({
      tag: `${circuit.unit.tag}-${circuit.letter}`,
      description: circuit.unit.description,
      refrigerant: circuit.refrigerant,
    })),
    clauses: await clausesOf(viewer, visit, day),
    days,
    technicians: await certifiedOn(viewer, there, day),
    parts: partsOf(told),
    gas,
    gasTotals: gasTotals(gas, viewer.tenant.massUnit),
    tests: tests(told),
    inspections: inspections(told),
    statements: ofKind(told, 'normal-operation').map((fact) => ({
      circuitTag: tagOf(told, fact),
      at: atOf(fact),
      by: byOf(fact),
    })),
    corrections: corrections(told),
    madeAt: viewer.now,
  };
}

const circuitsOf = (visit: HeadRow): Told['circuits'] =>
  new Map(
    visit.visitCircuits.map(({ circuit }) => [
      circuit.id,
      { tag: `${circuit.unit.tag}-${circuit.letter}`, refrigerant: circuit.refrigerant },
    ]),
  );

/** Item (ii): each day on which something was done; of a visit without a fact the day it began or is planned for. */
function daysOf(
  { world }: Viewer,
  { visit, worked, zone }: { visit: HeadRow; worked: readonly FactRow[]; zone: string },
): string[] {
  const days = worked.map((fact) =>
    fact.happenedAt
      ? world.calendar.dayOf(toInstant(fact.happenedAt), zone)
      : dateToDay(fact.happenedOn ?? fact.recordedAt),
  );
  const began = toInstant(visit.startedAt ?? visit.plannedStart ?? visit.createdAt);
  return days.length === 0 ? [world.calendar.dayOf(began, zone)] : [...new Set(days)].sort();
}

/** The rules that ask for this record: those that cover a circuit of the visit on its day. */
async function clausesOf(viewer: Viewer, visit: HeadRow, day: string): Promise<string[]> {
  const clauses: string[] = [];
  const circuitIds = visit.visitCircuits.map(({ circuitId }) => circuitId);
  for (const file of await circuitFiles(viewer.tx, viewer.tenantId, circuitIds)) {
    const covering = rulebooksOf(viewer, file, day).flatMap(({ rulebook, inScope }) => (inScope ? [rulebook] : []));
    clauses.push(
      ...RULEBOOK_IDS.filter((id) => covering.includes(id)).flatMap((id) => editionOn(id, day)?.clauses.record ?? []),
    );
  }
  return [...new Set(clauses)];
}

function tests(told: Told): ServiceRecordView['tests'] {
  return ofKind(told, 'verification').map((fact) => {
    const { stage, method, result } = fact.body as { stage: string; method: string; result: string };
    return {
      circuitTag: tagOf(told, fact),
      kind: stage === 'initial' ? 'Initial verification test' : 'Follow-up verification test',
      at: atOf(fact),
      where: placesOf(fact).join('; '),
      method: methodWordsOf(method),
      result,
      by: byOf(fact),
    };
  });
}

interface InspectionBody {
  readonly methods: string[];
  readonly result: string;
  readonly inaccessible: { what: string; why: string }[];
  readonly allPartsSeen: boolean;
}
function inspections(told: Told): ServiceRecordView['inspections'] {
  return ofKind(told, 'inspection').map((fact) => {
    const body = fact.body as InspectionBody;
    return {
      circuitTag: tagOf(told, fact),
      at: atOf(fact),
      methods: body.methods.map(methodWordsOf).join(', '),
      result: body.result === 'leak-found' ? 'leak found' : 'no leak found',
      leaking: placesOf(fact),
      inaccessible: body.inaccessible.map(({ what, why }) => `${what}: ${why}`),
      certified: body.allPartsSeen,
      by: byOf(fact),
    };
  });
}

/** All of them, also those that another one has overtaken, and what was set aside since. */
function corrections(told: Told): ServiceRecordView['corrections'] {
  const overtaken = correctedBy(told.facts);
  const corrected = ofKind(told, 'correction').map((fact) => {
    const { why } = fact.body as { why: string };
    return { at: atOf(fact), why: overtaken.has(fact.id) ? `${why} (a later correction stands)` : why };
  });
  const away = ofKind(told, 'set-aside').map((fact) => ({ at: atOf(fact), why: summaryOf(fact) }));
  return [...corrected, ...away];
}
