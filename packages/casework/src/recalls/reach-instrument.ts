/** What was done with an instrument while it could not be trusted. */
import { distrustOf, isDistrusted, touchedByDetector } from '@ullage/trail';
import type { DetectorUse, Distrust } from '@ullage/trail';
import { toDate } from '../pipeline/case.ts';
import { ACT, actStep, gramsByFact, thingsOf, whereOf } from './acts.ts';
import type { ActRow } from './acts.ts';
import { instantOfFact } from './instant.ts';
import { instrumentChecks } from './checks.ts';
import type { Records } from './checks.ts';
import type { Touched } from './touched.ts';

const TESTS = ['verification', 'inspection'];

export async function distrust(records: Records, instrumentId: string, factId: string): Promise<Distrust | undefined> {
  const checks = await instrumentChecks(records, instrumentId);
  return distrustOf(checks.get(instrumentId) ?? [], factId);
}

/** Clear looks and passed tests, weighings, and the cylinders and circuits that its other readings were about. */
export async function touchedByInstrument(
  records: Records,
  {
    instrument,
    span,
  }: { instrument: { readonly id: string; readonly tag: string; readonly kind: string }; span: Distrust },
): Promise<Touched[]> {
  const own = await usesOf(records, instrument.id, span);
  const tests = await testsBeside(records, own);
  const rows = new Map([...own, ...tests].map((row) => [row.id, row]));
  const touched = touchedByDetector(instrument.id, span, [...rows.values()].map(useOf(instrument)));
  const seen = touched.flatMap(({ factId, by }): Touched[] => {
    const row = rows.get(factId);
    if (!row) return [];
    const step = actStep(row, { from: instrument.tag, to: whereOf(row), grams: null });
    const way = [by === 'named' ? step : { ...step, by: `${step.by}, at a visit where it was in hand` }];
    const kind = row.kind === 'look' ? 'look' : 'test';
    return [{ kind, id: row.id, at: step.at, grams: null, way, more: [], recordedAt: row.recordedAt }];
  });
  const acts = own.filter(({ kind }) => !['look', 'tool-check', ...TESTS].includes(kind));
  const grams = await gramsByFact(
    records,
    acts.map(({ id }) => id),
  );
  const weighings = acts
    .filter(({ weighings: read }) => read.some(({ scaleId }) => scaleId === instrument.id))
    .map((row): Touched => {
      const step = actStep(row, { from: instrument.tag, to: whereOf(row), grams: grams.get(row.id) ?? null });
      const { at, grams: moved } = step;
      return { kind: 'weighing', id: row.id, at, grams: moved, way: [step], more: [], recordedAt: row.recordedAt };
    });
  return [...seen, ...weighings, ...thingsOf(acts, { source: instrument.tag, grams })];
}

async function usesOf({ tx, tenantId }: Records, id: string, span: Distrust): Promise<ActRow[]> {
  const rows = await tx.fact.findMany({
    where: {
      tenantId,
      kind: { notIn: ['calibration', 'instrument-retired', 'correction'] },
      OR: [{ factRefs: { some: { instrumentId: id } } }, { weighings: { some: { scaleId: id } } }],
      happenedAt: {
        not: null,
        ...(span.since === null ? {} : { gte: toDate(span.since) }),
        ...(span.until === null ? {} : { lt: toDate(span.until) }),
      },
    },
    select: ACT,
    orderBy: [{ happenedAt: 'asc' }, { id: 'asc' }],
  });
  return rows.filter((row) => isDistrusted(span, instantOfFact(row)));
}

/** Tests at the visits where it was in hand: not all of them say what they were made with. */
function testsBeside({ tx, tenantId }: Records, own: readonly ActRow[]): Promise<ActRow[]> {
  const visitIds = [...new Set(own.flatMap(({ visitId }) => visitId ?? []))];
  return tx.fact.findMany({
    where: { tenantId, kind: { in: TESTS }, visitId: { in: visitIds } },
    select: ACT,
    orderBy: [{ happenedAt: 'asc' }, { id: 'asc' }],
  });
}

interface SeenBody {
  readonly result?: string;
  readonly method?: string;
  readonly methods?: readonly string[];
}
const CLEAR = ['clear', 'pass', 'no-leak-found'];
const useOf =
  (instrument: { readonly id: string; readonly kind: string }) =>
  (row: ActRow): DetectorUse => {
    const { result = '', method, methods = [] } = row.body as SeenBody;
    const kind = row.kind === 'look' ? 'look' : TESTS.includes(row.kind) ? 'test' : 'check';
    return {
      factId: row.id,
      kind,
      at: instantOfFact(row),
      visitId: row.visitId,
      instrumentId: row.factRefs.some(({ instrumentId }) => instrumentId === instrument.id)
        ? instrument.id
        : (row.factRefs.find(({ role }) => role === 'instrument')?.instrumentId ?? null),
      isClear: CLEAR.includes(result),
      byDetector: instrument.kind === 'detector' && (method === 'electronic' || methods.includes('electronic')),
    };
  };
