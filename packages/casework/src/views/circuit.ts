import type { CircuitView } from '@ullage/contracts';
import { explains } from '@ullage/trail';
import { bookedGrams } from '@ullage/units';
import type { EnteredMass } from '@ullage/units';
import { isMixed } from '@ullage/gasbook';
import type { Portion } from '@ullage/gasbook';
import { portionsOf } from '../gas/contents.ts';
import { dateToDay } from '../pipeline/case.ts';
import { instrumentChecks } from '../recalls/checks.ts';
import { circuitFiles } from '../law/circuit-file.ts';
import type { CircuitFile } from '../law/circuit-file.ts';
import { additionsOf } from './additions.ts';
import { FACT_INCLUDE } from './fact-row.ts';
import type { FactRow } from './fact-row.ts';
import { doubtsOf } from './doubts.ts';
import { factViews, leakPointView, lookView } from './history.ts';
import { calculationsOf, dutiesOf, headroomOf, rulebooksOf } from './law.ts';
import { recordsOf } from './viewer.ts';
import type { Viewer } from './viewer.ts';
import { FULL_CHARGE_WORDS, USE_WORDS, wordOf } from './words.ts';
import { LATEST_FULL_CHARGE } from '../law/latest-full-charge.ts';

const DAYS_OF_YEAR = 365;
/** What the circuit loses by its last calculation, g/yr; null where there is none, or nothing is lost. */
export function goneGramsPerYear(latest: CircuitView['latest']): number | null {
  if (!latest) return null;
  const gone = (bookedGrams(latest.leakMass) * DAYS_OF_YEAR) / latest.days;
  return gone > 0 ? gone : null;
}
function explanation(latest: CircuitView['latest'], leaks: CircuitView['leakPoints']): CircuitView['explains'] {
  const gone = goneGramsPerYear(latest);
  if (!latest || gone === null) return null;
  const found = leaks
    .filter((leak) => leak.state !== 'verified' || leak.changedOn >= latest.onDay)
    .map((leak) => ({
      lowGramsPerYear: leak.lowGramsPerYear ?? undefined,
      highGramsPerYear: leak.highGramsPerYear ?? undefined,
    }));
  if (found.length === 0) return null;
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
  'set-aside',
];

function circuitRows({ tx, tenantId }: Viewer, circuitIds: readonly string[]) {
  return tx.circuit.findMany({
    where: { tenantId, id: { in: [...circuitIds] } },
    include: {
      unit: { select: { tag: true } },
      gasAccount: { include: { balances: { orderBy: { refrigerant: 'asc' } } } },
      fullCharges: LATEST_FULL_CHARGE,
    },
  });
}
type CircuitRow = Awaited<ReturnType<typeof circuitRows>>[number];

function factRows({ tx, tenantId }: Viewer, circuitIds: readonly string[]) {
  return tx.fact.findMany({
    where: { tenantId, circuitId: { in: [...circuitIds] } },
    include: FACT_INCLUDE,
    orderBy: [{ happenedAt: 'desc' }, { id: 'desc' }],
  });
}
function leakRows({ tx, tenantId }: Viewer, circuitIds: readonly string[]) {
  return tx.leakPoint.findMany({
    where: { tenantId, circuitId: { in: [...circuitIds] } },
    orderBy: { number: 'desc' },
  });
}

/** What is read of a circuit. */
interface Read {
  readonly circuit: CircuitRow;
  readonly file: CircuitFile;
  readonly facts: readonly FactRow[];
  readonly leaks: Awaited<ReturnType<typeof leakRows>>;
  readonly calculations: CircuitView['calculations'];
  readonly duties: CircuitView['duties'];
  readonly contents: Portion[];
  readonly doubts: CircuitView['doubts'];
  readonly checks: Awaited<ReturnType<typeof instrumentChecks>>;
}
/** Everything about some circuits that a unit's page shows, each with its file; what is read, is read for all at once. */
export async function circuitViews(
  viewer: Viewer,
  circuitIds: readonly string[],
): Promise<{ readonly view: CircuitView; readonly file: CircuitFile }[]> {
  const files = await circuitFiles(viewer.tx, viewer.tenantId, circuitIds);
  const circuits = new Map((await circuitRows(viewer, circuitIds)).map((row) => [row.id, row]));
  const facts = Map.groupBy(await factRows(viewer, circuitIds), (row) => row.circuitId);
  const leaks = Map.groupBy(await leakRows(viewer, circuitIds), (row) => row.circuitId);
  const calculations = await calculationsOf(viewer, circuitIds);
  const duties = Map.groupBy(await dutiesOf(viewer, { circuitIds }), (duty) => duty.circuitId);
  const checks = await instrumentChecks(recordsOf(viewer));
  const doubts = await doubtsIn(viewer, [...circuits.values()]);
  return files.flatMap((file) => {
    const { circuitId } = file;
    const circuit = circuits.get(circuitId);
    if (!circuit) return [];
    const read: Read = {
      circuit,
      file,
      checks,
      facts: facts.get(circuitId) ?? [],
      leaks: leaks.get(circuitId) ?? [],
      calculations: calculations.get(circuitId) ?? [],
      duties: (duties.get(circuitId) ?? []).map(({ circuitId: _of, ...duty }) => duty),
      contents: contentsIn(viewer, circuit),
      doubts: doubts.get(circuitId) ?? [],
    };
    return [{ view: circuitView(viewer, read), file }];
  });
}

const contentsIn = ({ tenantId }: Viewer, { gasAccount }: CircuitRow): Portion[] =>
  portionsOf(gasAccount?.balances ?? [], tenantId);

/** Doubts about the gas in each circuit. */
async function doubtsIn(
  viewer: Viewer,
  circuits: readonly CircuitRow[],
): Promise<ReadonlyMap<string, CircuitView['doubts']>> {
  const accounts = circuits.flatMap((circuit) => {
    const contentsGrams = contentsIn(viewer, circuit).reduce((total, { grams }) => total + grams, 0);
    return circuit.gasAccount ? [{ circuitId: circuit.id, accountId: circuit.gasAccount.id, contentsGrams }] : [];
  });
  const doubts = await doubtsOf(viewer, accounts);
  return new Map(accounts.map(({ circuitId }, i) => [circuitId, doubts[i]?.open ?? []]));
}

function circuitView(viewer: Viewer, read: Read): CircuitView {
  const { circuit, file, facts, calculations, contents, checks } = read;
  const zone = file.timeZone;
  const leakPoints = read.leaks.map((row) => leakPointView(viewer, row, { zone, facts }));
  const latest = calculations.find((calculation) => calculation.standing) ?? null;
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
    duties: read.duties,
    explains: explanation(latest, leakPoints),
    accountId: circuit.gasAccount?.id ?? null,
    balanceGrams: (circuit.gasAccount?.balances ?? []).reduce((total, balance) => total + Number(balance.grams), 0),
    mixed: isMixed(contents, circuit.refrigerant),
    doubts: read.doubts,
  };
}
