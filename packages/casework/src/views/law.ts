/** Duties, calculations and headroom as they are shown. */
import type { CalculationView, CircuitView, DutyView, HeadroomView } from '@ullage/contracts';
import { editionOn, headroom, RULEBOOK_IDS, scope } from '@ullage/rulebook';
import { bookedGrams } from '@ullage/units';
import type { KeptCalculation } from '../law/calculations.ts';
import type { CircuitFile } from '../law/circuit-file.ts';
import { dateToDay, toInstant } from '../pipeline/case.ts';
import { factLinks } from './fact-link.ts';
import type { Viewer } from './viewer.ts';
import { DUTY_WORDS, RULEBOOK_WORDS, wordOf } from './words.ts';

export async function dutiesOf(
  viewer: Viewer,
  where: { circuitIds: readonly string[] },
): Promise<(DutyView & { circuitId: string })[]> {
  const { tx, tenantId } = viewer;
  const rows = await tx.duty.findMany({
    where: { tenantId, circuitId: { in: [...where.circuitIds] }, state: { not: 'withdrawn' } },
    include: {
      dutyEvidences: true,
      visitDuties: { where: { visit: { state: { in: ['proposed', 'placed', 'on-site'] } } } },
    },
    orderBy: [{ dueAt: 'asc' }, { key: 'asc' }],
  });
  const evidence = rows.flatMap((row) => row.dutyEvidences.map(({ factId }) => factId));
  const links = await factLinks(viewer, evidence);
  return rows.map((row) => ({
    circuitId: row.circuitId,
    id: row.id,
    key: row.key,
    kind: row.kind,
    title: wordOf(DUTY_WORDS, row.kind),
    rulebook: row.rulebook,
    clause: row.clause,
    responsible: row.responsible,
    opensAt: row.opensAt ? toInstant(row.opensAt) : null,
    dueAt: row.dueAt ? toInstant(row.dueAt) : null,
    dueOn: row.dueOn ? dateToDay(row.dueOn) : null,
    provisional: row.provisional,
    state: row.state as DutyView['state'],
    why: row.why,
    flags: row.flags as string[],
    dischargedBy: row.dutyEvidences
      .flatMap(({ factId }) => links.get(factId) ?? [])
      .sort((a, b) => (a.happenedAt < b.happenedAt ? -1 : 1)),
    visitId: row.visitDuties[0]?.visitId ?? null,
  }));
}

/** Calculations of some circuits by circuit, newest first. */
export async function calculationsOf(
  { tx, tenantId }: Viewer,
  circuitIds: readonly string[],
): Promise<Map<string, CalculationView[]>> {
  const rows = await tx.calculation.findMany({
    where: { tenantId, circuitId: { in: [...circuitIds] } },
    orderBy: [{ onDay: 'desc' }, { number: 'desc' }],
  });
  const byCircuit = Map.groupBy(rows, ({ circuitId }) => circuitId);
  return new Map([...byCircuit].map(([circuitId, of]) => [circuitId, of.map(calculationView)]));
}

interface CalculationRow {
  id: string;
  number: number;
  rulebook: string;
  rulebookVersion: string;
  method: string;
  onDay: Date;
  result: unknown;
  standing: boolean;
  madeAt: Date;
}
const twoPlaces = (percent: number): string => percent.toFixed(2);

export function calculationView(row: CalculationRow): CalculationView {
  const result = row.result as KeptCalculation;
  const { alternative } = result;
  return {
    id: row.id,
    number: row.number,
    rulebook: row.rulebook,
    rulebookTitle: wordOf(RULEBOOK_WORDS, row.rulebook),
    rulebookVersion: row.rulebookVersion,
    method: row.method,
    onDay: dateToDay(row.onDay),
    leakMass: result.leakMass,
    fullCharge: result.fullCharge,
    days: result.days,
    substituted: result.substituted,
    ratePercent: twoPlaces(result.ratePercentPerYear),
    exact: result.exact,
    thresholdPercent: result.thresholdPercent,
    over: result.over,
    alternative: alternative
      ? {
          leakMass: alternative.leakMass,
          exact: alternative.exact,
          ratePercent: twoPlaces(alternative.ratePercentPerYear),
          over: alternative.over,
          why: 'Not settled in law: by gross weight, gas that was recovered at the visit and charged again counts as added.',
        }
      : null,
    clause: result.clause,
    flags: [...result.flags],
    reasons: [...result.reasons],
    standing: row.standing,
    madeAt: toInstant(row.madeAt),
  };
}

/** What may still be added today: the least that the rulebooks in force leave, or why there is none. */
export function headroomOf(
  viewer: Viewer,
  file: CircuitFile,
  visit?: string,
): { headroom: HeadroomView | null; headroomWhyNot: string | null } {
  const { calendar } = viewer.world;
  const { facts, method, timeZone, events } = file;
  const onDay = calendar.dayOf(viewer.now, timeZone);
  const whyNot: string[] = [];
  const found = RULEBOOK_IDS.flatMap((rulebook): HeadroomView[] => {
    const asked = {
      ...facts,
      rulebook,
      method,
      timeZone,
      asOf: viewer.now,
      events,
      ...(visit === undefined ? {} : { visit }),
    };
    const { mass, reasons } = headroom(asked, calendar);
    const [reason] = reasons;
    const threshold = editionOn(rulebook, onDay)?.thresholdPercent[facts.use];
    if (mass === null || threshold === undefined) {
      whyNot.push(reason?.text ?? 'No rulebook covers this circuit.');
      return [];
    }
    const clause = reason?.source ?? '';
    return [
      { mass, grams: bookedGrams(mass), thresholdPercent: Number(threshold), onDay, reasons: [...reasons], clause },
    ];
  });
  const [least] = found.sort((a, b) => a.grams - b.grams);
  return least ? { headroom: least, headroomWhyNot: null } : { headroom: null, headroomWhyNot: whyNot.at(-1) ?? null };
}

/** Whether each rulebook covers the circuit on a day, today unless said, with the reason and the clause. */
export function rulebooksOf(
  viewer: Viewer,
  file: CircuitFile,
  onDay: string = viewer.world.calendar.dayOf(viewer.now, file.timeZone),
): CircuitView['rulebooks'] {
  const { refrigerant, use, equipment, subsector, fullCharges } = file.facts;
  const mass = fullCharges.at(-1)?.mass;
  if (!mass) return [];
  const answers = scope({ refrigerant, mass, use, equipment, subsector, onDay, jurisdictions: RULEBOOK_IDS });
  return answers.map((answer) => ({
    rulebook: answer.rulebook,
    title: wordOf(RULEBOOK_WORDS, answer.rulebook),
    version: answer.rulebookVersion,
    inScope: answer.inScope === true,
    why: answer.why,
    clause: answer.clause,
  }));
}
