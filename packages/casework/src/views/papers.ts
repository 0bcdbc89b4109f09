/** The two papers: the leak-rate sheet, which is the owner's, and the service record, which the contractor hands over. */
import type { LeakRateSheetView, ServiceRecordView } from '@ullage/contracts';
import { bookedGrams } from '@ullage/units';
import type { EnteredMass } from '@ullage/units';
import { readingsOf } from '../commands/correct-weighing.ts';
import { netEntered } from '../law/circuit-file.ts';
import { notFound, toInstant } from '../pipeline/case.ts';
import { bodyOf, FACT_INCLUDE } from './history.ts';
import type { FactRow } from './history.ts';
import { calculationView, dutiesOf } from './law.ts';
import { methodWordsOf } from './method-words.ts';
import { loadSite, siteView } from './site.ts';
import type { Viewer } from './viewer.ts';
import { certificateText, HEAD_INCLUDE } from './visit.ts';
import { FULL_CHARGE_WORDS, USE_WORDS, wordOf } from './words.ts';

export async function leakRateSheet(viewer: Viewer, id: string): Promise<LeakRateSheetView> {
  const { tx, tenantId } = viewer;
  const row = await tx.calculation.findUnique({
    where: { tenantId_id: { tenantId, id } },
    include: { circuit: { include: { unit: true, fullCharges: { orderBy: { fromOn: 'desc' }, take: 1 } } } },
  });
  const site = row && (await loadSite(tx, tenantId, row.circuit.unit.siteId));
  if (!row || !site) throw notFound();
  const calculation = calculationView(row);
  const { circuit } = row;
  const [full] = circuit.fullCharges;
  const duties = await dutiesOf(viewer, { circuitIds: [circuit.id] });
  return {
    calculation,
    contractor: viewer.tenant.name,
    circuitTag: `${circuit.unit.tag}-${circuit.letter}`,
    unitText: circuit.unit.description ?? circuit.unit.tag,
    site: siteView(site),
    useText: wordOf(USE_WORDS, circuit.use),
    fullChargeText: `${full?.value ?? ''} ${full?.unit ?? ''}, ${wordOf(FULL_CHARGE_WORDS, full?.method ?? '')}`,
    refrigerant: circuit.refrigerant,
    duties: duties
      .filter((duty) => duty.rulebook === row.rulebook && calculation.over)
      .map(({ circuitId: _of, ...duty }) => duty),
    certain: certainty(calculation),
    madeAt: calculation.madeAt,
  };
}

function certainty(calculation: LeakRateSheetView['calculation']): LeakRateSheetView['certain'] {
  const said: LeakRateSheetView['certain'] = [];
  if (calculation.substituted) {
    said.push({
      text: 'The first calculation under the rule uses 365 days, not the days that passed.',
      source: calculation.clause,
    });
  }
  if (calculation.alternative) {
    const same = calculation.alternative.over === calculation.over ? 'the same verdict' : 'another verdict';
    said.push({
      text: `${calculation.alternative.why} We count the net. By gross weight the rate is ${calculation.alternative.ratePercent} %: ${same}.`,
      source: 'our reading',
    });
  }
  said.push({
    text: 'Equal to the limit is not over it: the law says “exceeds”. Nothing is rounded before it is compared.',
    source: calculation.clause,
  });
  return said;
}

/** Items (i) to (vi) of 40 CFR 82.157(l)(2) and the tests. Full charge and rate are the owner's, and are left out. */
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
  const tags = new Map(visit.visitCircuits.map(({ circuit }) => [circuit.id, `${circuit.unit.tag}-${circuit.letter}`]));
  const tagOf = (fact: FactRow): string => tags.get(fact.circuitId ?? '') ?? '';
  const at = (fact: FactRow): string => toInstant(fact.happenedAt ?? fact.recordedAt);
  const of = (kind: string): FactRow[] => facts.filter((fact) => fact.kind === kind);
  const day = viewer.world.calendar.dayOf(
    toInstant(visit.startedAt ?? visit.plannedStart ?? visit.createdAt),
    site.timeZone,
  );
  return {
    contractor: viewer.tenant.name,
    visitId,
    site: siteView(site),
    units: visit.visitCircuits.map(({ circuit }) => ({
      tag: tags.get(circuit.id) ?? '',
      description: circuit.unit.description,
      refrigerant: circuit.refrigerant,
    })),
    day,
    technicians: visit.visitPersons.map(({ person }) => ({
      id: person.id,
      name: person.name,
      certificates: certificateText(person.certificates),
    })),
    parts: of('repair').map((fact) => ({
      circuitTag: tagOf(fact),
      part: String(bodyOf(fact).part ?? placesOf(fact)),
      work: String(bodyOf(fact).what),
    })),
    gas: await gasLines(viewer, {
      facts,
      tagOf,
      refrigerants: new Map(visit.visitCircuits.map(({ circuit }) => [circuit.id, circuit.refrigerant])),
    }),
    tests: of('verification').map((fact) => ({
      circuitTag: tagOf(fact),
      kind: bodyOf(fact).stage === 'initial' ? 'Initial verification test' : 'Follow-up verification test',
      at: at(fact),
      where: placesOf(fact),
      method: methodWordsOf(String(bodyOf(fact).method)),
      result: String(bodyOf(fact).result),
    })),
    inspections: of('inspection').map((fact) => {
      const body = bodyOf(fact) as {
        methods: string[];
        result: string;
        inaccessible: { what: string; why: string }[];
        allPartsSeen: boolean;
      };
      return {
        circuitTag: tagOf(fact),
        at: at(fact),
        methods: body.methods.map(methodWordsOf).join(', '),
        result: body.result === 'leak-found' ? 'leak found' : 'no leak found',
        inaccessible: body.inaccessible.map(({ what, why }) => `${what}: ${why}`),
        certified: body.allPartsSeen,
      };
    }),
    statements: of('normal-operation').map((fact) => ({
      circuitTag: tagOf(fact),
      at: at(fact),
      by: fact.byPerson?.name ?? '',
    })),
    corrections: of('correction').map((fact) => ({ at: at(fact), why: String(bodyOf(fact).why) })),
    madeAt: viewer.now,
  };
}
const placesOf = (fact: FactRow): string =>
  fact.factRefs.flatMap((ref) => (ref.leakPoint ? [`L${ref.leakPoint.number}`] : [])).join(', ');

interface GasLines {
  facts: readonly FactRow[];
  tagOf(fact: FactRow): string;
  refrigerants: ReadonlyMap<string, string>;
}
async function gasLines(viewer: Viewer, { facts, tagOf, refrigerants }: GasLines): Promise<ServiceRecordView['gas']> {
  const lines: ServiceRecordView['gas'] = [];
  for (const fact of facts.filter(({ kind }) => kind === 'charge' || kind === 'recovery')) {
    const { before, after } = await readingsOf(viewer, fact.id);
    const mass = netEntered(before as EnteredMass, after as EnteredMass);
    const cylinder = fact.factRefs.find((ref) => ref.role === 'cylinder')?.cylinder;
    lines.push({
      circuitTag: tagOf(fact),
      refrigerant: refrigerants.get(fact.circuitId ?? '') ?? '',
      direction: fact.kind === 'charge' ? 'added' : 'removed',
      mass,
      grams: Math.abs(bookedGrams(before) - bookedGrams(after)),
      cylinder: cylinder?.label ?? cylinder?.serial ?? '',
    });
  }
  return lines;
}
