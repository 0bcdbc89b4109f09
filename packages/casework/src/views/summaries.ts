/** One line that says what a fact said, for lists and records. */
import type { AirCheckView } from '@ullage/contracts';
import { verdictText } from './air-checks.ts';
import { methodWordsOf } from './method-words.ts';
import type { FactRow } from './fact-row.ts';

type Body = Record<string, unknown>;
interface Entered {
  value: string;
  unit: string;
}
const entered = (value: unknown): string => {
  const mass = value as Entered | undefined;
  return mass ? `${mass.value} ${mass.unit}` : '';
};
const cylinderOf = (row: FactRow, role = 'cylinder'): string => {
  const cylinder = row.factRefs.find((ref) => ref.role === role)?.cylinder;
  return cylinder?.label ?? cylinder?.serial ?? 'cylinder';
};
const leaksOf = (row: FactRow): string =>
  row.factRefs.flatMap((ref) => (ref.leakPoint ? [`L${ref.leakPoint.number}`] : [])).join(', ');

type Say = (body: Body, row: FactRow) => string;
const SAY: Readonly<Record<string, Say>> = {
  'past-addition': (body) => (body.mass === null ? 'mass unknown' : entered(body.mass)),
  safety: (body) => `${(body.checks as string[]).length} of 5 done`,
  'tool-check': (body, row) => `${row.factRefs[0]?.instrument?.tag ?? 'instrument'}: ${String(body.result)}`,
  calibration: (body, row) => `${row.factRefs[0]?.instrument?.tag ?? 'instrument'}: ${String(body.result)}`,
  'instrument-retired': (body, row) => `${row.factRefs[0]?.instrument?.tag ?? 'instrument'}: ${String(body.why)}`,
  readings: (body) =>
    [entered(body.standing), entered(body.ambient), entered(body.suction)].filter((text) => text !== '').join(', '),
  look: (body) => `${methodWordsOf(String(body.method))}: ${String(body.result).replaceAll('-', ' ')}`,
  'leak-point': (body, row) => `${leaksOf(row)}: ${String(body.where)}`,
  plate: (body) => (typeof body.reads === 'string' ? body.reads : 'photographed'),
  consent: (body) => `${String(body.decision).replaceAll('-', ' ')}, by ${String(body.by)}`,
  recovery: (body, row) => `${entered(body.before)} to ${entered(body.after)} gross, into ${cylinderOf(row)}`,
  charge: (body, row) => `${entered(body.before)} to ${entered(body.after)} gross, from ${cylinderOf(row)}`,
  transfer: (_body, row) => `${cylinderOf(row, 'from')} to ${cylinderOf(row, 'to')}`,
  'cylinder-weighed': (body, row) => `${cylinderOf(row)}: ${entered(body.gross)} gross`,
  'tare-corrected': (body, row) => `${cylinderOf(row)}: ${entered(body.tare)}, ${String(body.why)}`,
  delivery: (body) => `${String(body.cylinders)} of ${String(body.refrigerant)} from ${String(body.supplier)}`,
  'hand-over': (body) => `to ${String(body.to)}`,
  shipment: (body) => `${(body.cylinders as unknown[]).length} to ${String(body.receiver)}, by ${String(body.carrier)}`,
  acceptance: (body) => `${(body.cylinders as unknown[]).length} by ${String(body.receiver)}`,
  'cylinder-lost': (body, row) => `${cylinderOf(row)}: ${String(body.why)}`,
  'cylinder-found': (body, row) => `${cylinderOf(row)}: ${entered(body.gross)} gross`,
  'cylinder-returned': (body, row) => `${cylinderOf(row)} to ${String(body.supplier)}, ${entered(body.gross)} gross`,
  'cylinder-scrapped': (body, row) => `${cylinderOf(row)} to ${String(body.receiver)}`,
  'taken-back': (body) => String(body.why),
  'air-check': (body, row) =>
    `${cylinderOf(row)}: ${verdictText((body.answer as { verdict: AirCheckView['verdict'] }).verdict)}`,
  'service-loss': (body) => `${entered(body.mass)}: ${String(body.how)}`,
  repair: (body, row) => `${leaksOf(row)}: ${String(body.what)}`,
  verification: (body, row) =>
    `${body.stage === 'initial' ? 'initial' : 'follow-up'}, ${leaksOf(row)}: ${String(body.result)}`,
  vacuum: (body) => String(body.result).replaceAll('-', ' '),
  inspection: (body) => (body.result === 'leak-found' ? 'leak found' : 'no leak found'),
  'normal-operation': () => 'stated by the technician',
  'set-aside': (body) => `${String(body.what)}: does not count any more`,
  'cylinder-held': (body, row) => `${cylinderOf(row)}: ${String(body.why)}`,
  'cylinder-released': (body, row) => `${cylinderOf(row)}: ${String(body.why)}`,
  correction: (body) => String(body.why),
  'owner-told': (body) => String(body.who),
};
export const summaryOf = (row: FactRow): string => SAY[row.kind]?.(row.body as Body, row) ?? '';
