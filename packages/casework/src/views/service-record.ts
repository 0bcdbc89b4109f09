/** The service record: what the contractor hands over at the end of a visit. Full charge and rate are the owner's. */
import type { ServiceRecordView } from '@ullage/contracts';
import { bookedGrams } from '@ullage/units';
import { weightsOf } from '../gas/corrections.ts';
import { netEntered } from '../law/circuit-file.ts';
import { notFound, toInstant } from '../pipeline/case.ts';
import { correctedBy, FACT_INCLUDE } from './fact-row.ts';
import type { FactRow } from './fact-row.ts';
import { placeWords } from './history.ts';
import { methodWordsOf } from './method-words.ts';
import { loadSite, siteView } from './site.ts';
import type { Viewer } from './viewer.ts';
import { certificateText, HEAD_INCLUDE } from './visit.ts';
import type { HeadRow } from './visit.ts';

/** Facts of the visit, with what is said of the circuits they belong to. */
interface Told {
  readonly facts: readonly FactRow[];
  readonly circuits: ReadonlyMap<string, { readonly tag: string; readonly refrigerant: string }>;
}
const of = ({ facts }: Told, kind: string): FactRow[] => facts.filter((fact) => fact.kind === kind);
const tagOf = ({ circuits }: Told, fact: FactRow): string => circuits.get(fact.circuitId ?? '')?.tag ?? '';
const at = (fact: FactRow): string => toInstant(fact.happenedAt ?? fact.recordedAt);
const leaksOf = (fact: FactRow): string =>
  fact.factRefs.flatMap((ref) => (ref.leakPoint ? [`L${ref.leakPoint.number}`] : [])).join(', ');

/** The parts serviced in words, since item (iii) asks for the part and not for our number of the leak. */
const placesOf = (fact: FactRow): string =>
  fact.factRefs
    .flatMap(({ leakPoint }) => (leakPoint ? [`${placeWords(leakPoint.place)}, ${leakPoint.whereText}`] : []))
    .join('; ');

/** Items (i) to (vi) of 40 CFR 82.157(l)(2) and the tests. */
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
  const began = toInstant(visit.startedAt ?? visit.plannedStart ?? visit.createdAt);
  return {
    contractor: viewer.tenant.name,
    visitId,
    site: siteView(site),
    units: visit.visitCircuits.map(({ circuit }) => ({
      tag: `${circuit.unit.tag}-${circuit.letter}`,
      description: circuit.unit.description,
      refrigerant: circuit.refrigerant,
    })),
    day: viewer.world.calendar.dayOf(began, site.timeZone),
    technicians: visit.visitPersons.map(({ person }) => ({
      id: person.id,
      name: person.name,
      certificates: certificateText(person.certificates),
    })),
    parts: parts(told),
    gas: gasLines(told),
    tests: tests(told),
    inspections: inspections(told),
    statements: of(told, 'normal-operation').map((fact) => ({
      circuitTag: tagOf(told, fact),
      at: at(fact),
      by: fact.byPerson?.name ?? '',
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

function parts(told: Told): ServiceRecordView['parts'] {
  return of(told, 'repair').map((fact) => {
    const { part, what } = fact.body as { part?: string; what: string };
    return { circuitTag: tagOf(told, fact), part: part ?? placesOf(fact), work: what };
  });
}

function tests(told: Told): ServiceRecordView['tests'] {
  return of(told, 'verification').map((fact) => {
    const { stage, method, result } = fact.body as { stage: string; method: string; result: string };
    const kind = stage === 'initial' ? 'Initial verification test' : 'Follow-up verification test';
    return {
      circuitTag: tagOf(told, fact),
      kind,
      at: at(fact),
      where: leaksOf(fact),
      method: methodWordsOf(method),
      result,
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
  return of(told, 'inspection').map((fact) => {
    const body = fact.body as InspectionBody;
    return {
      circuitTag: tagOf(told, fact),
      at: at(fact),
      methods: body.methods.map(methodWordsOf).join(', '),
      result: body.result === 'leak-found' ? 'leak found' : 'no leak found',
      inaccessible: body.inaccessible.map(({ what, why }) => `${what}: ${why}`),
      certified: body.allPartsSeen,
    };
  });
}

/** All of them, also those that another one has overtaken. */
function corrections(told: Told): ServiceRecordView['corrections'] {
  const overtaken = correctedBy(told.facts);
  return of(told, 'correction').map((fact) => {
    const { why } = fact.body as { why: string };
    return { at: at(fact), why: overtaken.has(fact.id) ? `${why} (a later correction stands)` : why };
  });
}

function gasLines(told: Told): ServiceRecordView['gas'] {
  return told.facts.flatMap((fact) => {
    const weights = weightsOf(fact);
    if (!weights) return [];
    const { before, after } = weights;
    return {
      circuitTag: tagOf(told, fact),
      refrigerant: told.circuits.get(fact.circuitId ?? '')?.refrigerant ?? '',
      direction: fact.kind === 'charge' ? ('added' as const) : ('removed' as const),
      mass: netEntered(before, after),
      grams: Math.abs(bookedGrams(before) - bookedGrams(after)),
      cylinder: cylinderOf(fact),
    };
  });
}
const cylinderOf = (fact: FactRow): string => {
  const cylinder = fact.factRefs.find((ref) => ref.role === 'cylinder')?.cylinder;
  return cylinder?.label ?? cylinder?.serial ?? '';
};
