import type { CircuitView } from '@ullage/contracts';
import { explains } from '@ullage/trail';
import { bookedGrams } from '@ullage/units';
import type { EnteredMass } from '@ullage/units';
import { isMixed } from '@ullage/gasbook';
import { contentsOf } from '../gas/contents.ts';
import { dateToDay } from '../pipeline/case.ts';
import { circuitFile } from '../law/circuit-file.ts';
import { additionsOf } from './additions.ts';
import { FACT_INCLUDE } from './fact-row.ts';
import { doubtsOf } from './doubts.ts';
import { factViews, instrumentChecks, leakPointView, lookView } from './history.ts';
import { calculationsOf, dutiesOf, headroomOf, rulebooksOf } from './law.ts';
import type { Viewer } from './viewer.ts';
import { FULL_CHARGE_WORDS, USE_WORDS, wordOf } from './words.ts';
import { LATEST_FULL_CHARGE } from '../law/latest-full-charge.ts';

const SECONDS_OF_YEAR_DAYS = 365;
function explanation(latest: CircuitView['latest'], leaks: CircuitView['leakPoints']): CircuitView['explains'] {
  if (!latest) return null;
  const gone = (bookedGrams(latest.leakMass) * SECONDS_OF_YEAR_DAYS) / latest.days;
  const found = leaks
    .filter((leak) => leak.state !== 'verified' || leak.changedOn >= latest.onDay)
    .map((leak) => ({
      lowGramsPerYear: leak.lowGramsPerYear ?? undefined,
      highGramsPerYear: leak.highGramsPerYear ?? undefined,
    }));
  if (found.length === 0 || !(gone > 0)) return null;
  const { share, verdict, text } = explains({ found, goneGramsPerYear: { low: gone, high: gone } });
  const percent = (part: number | null): number | null => (part === null ? null : Math.round(part * 100));
  return {
    verdict,
    text,
    lowPercent: percent(share.low),
    highPercent: percent(share.high),
    goneGramsPerYear: Math.round(gone),
  };
}

interface FullChargeRow {
  readonly value: string;
  readonly unit: string;
  readonly method: string;
  readonly lowValue: string | null;
  readonly highValue: string | null;
  readonly fromOn: Date;
}
/** Every circuit has one since its call was taken. */
function fullChargeView(row: FullChargeRow | undefined): CircuitView['fullCharge'] {
  if (!row) throw new Error('a circuit without a full charge');
  const mass = { value: row.value, unit: row.unit as EnteredMass['unit'] };
  const { lowValue, highValue, unit } = row;
  const rangeText = lowValue === null || highValue === null ? null : `${lowValue} to ${highValue} ${unit}`;
  return { mass, methodText: wordOf(FULL_CHARGE_WORDS, row.method), fromOn: dateToDay(row.fromOn), rangeText };
}

const EVENT_KINDS = [
  'repair',
  'verification',
  'inspection',
  'normal-operation',
  'vacuum',
  'consent',
  'owner-told',
  'correction',
];

/** Everything about a circuit that a unit's page shows. */
export async function circuitView(viewer: Viewer, circuitId: string): Promise<CircuitView> {
  const { tx, tenantId } = viewer;
  const circuit = await tx.circuit.findUniqueOrThrow({
    where: { tenantId_id: { tenantId, id: circuitId } },
    include: {
      unit: { select: { tag: true } },
      gasAccount: { include: { balances: true } },
      fullCharges: LATEST_FULL_CHARGE,
    },
  });
  const file = await circuitFile(tx, tenantId, circuitId);
  const zone = file.timeZone;
  const facts = await tx.fact.findMany({
    where: { tenantId, circuitId },
    include: FACT_INCLUDE,
    orderBy: [{ happenedAt: 'desc' }, { id: 'desc' }],
  });
  const leakRows = await tx.leakPoint.findMany({ where: { tenantId, circuitId }, orderBy: { number: 'desc' } });
  const leakPoints = leakRows.map((row) => leakPointView(viewer, row, { zone, facts }));
  const calculations = await calculationsOf(viewer, circuitId);
  const latest = calculations.find((calculation) => calculation.standing) ?? null;
  const checks = await instrumentChecks(viewer);
  const account = circuit.gasAccount;
  const contents = account ? await contentsOf(tx, tenantId, account.id) : [];
  const contentsGrams = contents.reduce((sum, { grams }) => sum + grams, 0);
  const doubts = account ? await doubtsOf(viewer, { accountId: account.id, contentsGrams }) : { open: [] };
  return {
    id: circuit.id,
    tag: `${circuit.unit.tag}-${circuit.letter}`,
    letter: circuit.letter,
    refrigerant: circuit.refrigerant,
    use: circuit.use,
    useText: wordOf(USE_WORDS, circuit.use),
    equipment: circuit.equipment,
    subsector: circuit.subsector,
    decision: circuit.decisionWhy,
    installedOn: file.facts.installedOn ?? null,
    fullCharge: fullChargeView(circuit.fullCharges[0]),
    rulebooks: rulebooksOf(viewer, file),
    ...headroomOf(viewer, file),
    latest,
    calculations,
    additions: additionsOf(file, viewer.world.calendar),
    leakPoints,
    looks: facts.filter((fact) => fact.kind === 'look').map((fact) => lookView(viewer, fact, { zone, checks })),
    events: factViews(viewer, facts, zone).filter((fact) => EVENT_KINDS.includes(fact.kind)),
    duties: (await dutiesOf(viewer, { circuitIds: [circuitId] })).map(({ circuitId: _of, ...duty }) => duty),
    explains: explanation(latest, leakPoints),
    accountId: account?.id ?? null,
    balanceGrams: (account?.balances ?? []).reduce((total, balance) => total + Number(balance.grams), 0),
    mixed: isMixed(contents, circuit.refrigerant),
    doubts: doubts.open,
  };
}
