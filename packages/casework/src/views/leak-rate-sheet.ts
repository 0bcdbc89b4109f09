/** The leak-rate sheet: one calculation with its reasoning, for the owner or operator. */
import type { LeakRateSheetView } from '@ullage/contracts';
import { notFound } from '../pipeline/case.ts';
import { calculationView, dutiesOf } from './law.ts';
import { loadSite, siteView } from './site.ts';
import type { Viewer } from './viewer.ts';
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
