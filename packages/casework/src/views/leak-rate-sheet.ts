/** The leak-rate sheet: one calculation with its reasoning, for the owner or operator. */
import type { Certified, FactLink, LeakRateSheetView } from '@ullage/contracts';
import type { KeptCalculation } from '../law/calculations.ts';
import { dateToDay, notFound } from '../pipeline/case.ts';
import { certifiedOn } from './certified.ts';
import { factLinks } from './fact-link.ts';
import { calculationView, dutiesOf } from './law.ts';
import { loadSite, siteView } from './site.ts';
import type { Viewer } from './viewer.ts';
import { FULL_CHARGE_WORDS, USE_WORDS, wordOf } from './words.ts';

export async function leakRateSheet(viewer: Viewer, id: string): Promise<LeakRateSheetView> {
  const { tx, tenantId } = viewer;
  const row = await tx.calculation.findUnique({
    where: { tenantId_id: { tenantId, id } },
    include: {
      circuit: {
        include: { unit: true, fullCharges: { orderBy: [{ fromOn: 'asc' }, { recordedAt: 'asc' }, { id: 'asc' }] } },
      },
    },
  });
  const site = row && (await loadSite(tx, tenantId, row.circuit.unit.siteId));
  if (!row || !site) throw notFound();
  const calculation = calculationView(row);
  const { circuit } = row;
  // The first figure holds from the beginning: no earlier one is known.
  const full =
    circuit.fullCharges.findLast(({ fromOn }) => dateToDay(fromOn) <= calculation.onDay) ?? circuit.fullCharges[0];
  const duties = await dutiesOf(viewer, { circuitIds: [circuit.id] });
  const { additionIds } = row.result as unknown as KeptCalculation;
  const facts = [...(await factLinks(viewer, additionIds)).values()];
  return {
    calculation,
    contractor: viewer.tenant.name,
    circuitTag: `${circuit.unit.tag}-${circuit.letter}`,
    unitText: circuit.unit.description ?? circuit.unit.tag,
    site: siteView(site),
    useText: wordOf(USE_WORDS, circuit.use),
    fullChargeText: `${full?.value ?? ''} ${full?.unit ?? ''}, ${wordOf(FULL_CHARGE_WORDS, full?.method ?? '')}`,
    refrigerant: circuit.refrigerant,
    technicians: await technicians(viewer, facts, calculation.onDay),
    facts: facts.sort((a, b) => (a.happenedAt < b.happenedAt ? -1 : 1)),
    duties: duties
      .filter((duty) => duty.rulebook === row.rulebook && calculation.over)
      .map(({ circuitId: _of, ...duty }) => duty),
    certain: certainty(calculation),
    madeAt: calculation.madeAt,
  };
}

/**
 * Whoever was placed on the visits of these additions, and whoever entered a weight there. An addition that was only
 * told when the call was taken has no visit, and whoever took the call weighed nothing.
 */
async function technicians(viewer: Viewer, facts: readonly FactLink[], day: string): Promise<Certified[]> {
  const { tx, tenantId } = viewer;
  const visitIds = [...new Set(facts.flatMap(({ visitId }) => visitId ?? []))];
  if (visitIds.length === 0) return [];
  const placed = await tx.visitPerson.findMany({
    where: { tenantId, visitId: { in: visitIds } },
    select: { personId: true },
  });
  const weighed = await tx.fact.findMany({
    where: { tenantId, id: { in: facts.flatMap(({ id, visitId }) => (visitId === null ? [] : [id])) } },
    select: { byPersonId: true },
  });
  const ids = [...placed.map(({ personId }) => personId), ...weighed.map(({ byPersonId }) => byPersonId)];
  return certifiedOn(viewer, ids, day);
}

/** What holds of every sheet; the calculation's own reasons say the rest, the other reading of the rule among them. */
const certainty = ({ clause }: LeakRateSheetView['calculation']): LeakRateSheetView['certain'] => [
  {
    text: 'Equal to the limit is not over it: the law says “exceeds”. Nothing is rounded before it is compared.',
    source: clause,
  },
];
