import { leakRate, RULEBOOK_IDS } from '@ullage/rulebook';
import type { Calculation, LeakRateAnswer } from '@ullage/rulebook';
import type { Prisma } from '@ullage/database';
import { dateToDay, dayToDate, toDate } from '../pipeline/case.ts';
import type { Work } from '../pipeline/case.ts';
import type { CircuitFile } from './circuit-file.ts';

/** What is kept of a calculation: everything a person needs to check it, with the rulebook's version. */
export interface KeptCalculation extends Calculation {
  readonly rulebookVersion: string;
}

/**
 * Keeps each leak-rate calculation with inputs and arithmetic. One that a late or corrected fact changed is not
 * overwritten: it stops standing, and a new sheet is made beside it.
 */
export async function writeCalculations(desk: Work, files: readonly CircuitFile[]): Promise<void> {
  const { tx, tenantId } = desk;
  const circuitIds = files.map(({ circuitId }) => circuitId);
  const rows = await tx.calculation.findMany({
    where: { tenantId, circuitId: { in: circuitIds } },
    orderBy: { number: 'asc' },
  });
  const made: NewRow[] = [];
  const gone: string[] = [];
  for (const file of files) {
    for (const rulebook of RULEBOOK_IDS) {
      const { circuitId, method, timeZone, facts, events } = file;
      const asked = { ...facts, rulebook, method, timeZone, asOf: desk.recordedAt, events };
      const known = rows.filter((row) => row.circuitId === circuitId && row.rulebook === rulebook);
      const next = compare(desk, { file, known, answer: leakRate(asked, desk.world.calendar) });
      made.push(...next.made);
      gone.push(...next.gone);
      for (const { id } of next.made) desk.changed('calculation', id, 'made');
      for (const id of next.gone) desk.changed('calculation', id);
    }
  }
  if (made.length > 0) await tx.calculation.createMany({ data: made.map((one) => ({ ...row(desk, one), tenantId })) });
  if (gone.length > 0)
    await tx.calculation.updateMany({ where: { tenantId, id: { in: gone } }, data: { standing: false } });
}

interface Known {
  readonly id: string;
  readonly number: number;
  readonly onDay: Date;
  readonly standing: boolean;
  readonly result: unknown;
}
/** What is new under a rulebook, and what of the sheets that are there stands no more. */
function compare(
  desk: Work,
  { file, known: rows, answer }: { file: CircuitFile; known: readonly Known[]; answer: LeakRateAnswer },
): { made: NewRow[]; gone: string[] } {
  const standing = new Map(rows.filter((row) => row.standing).map((row) => [dateToDay(row.onDay), row]));
  let number = rows.at(-1)?.number ?? 0;
  const made: NewRow[] = [];
  for (const calculation of kept(answer)) {
    const known = standing.get(calculation.day);
    const result: KeptCalculation = { ...calculation, rulebookVersion: answer.rulebookVersion };
    if (known && sameResult(known.result, result)) {
      standing.delete(calculation.day);
      continue;
    }
    number += 1;
    const { circuitId, method, facts: input } = file;
    made.push({ circuitId, rulebook: answer.rulebook, id: desk.world.newId(), number, method, result, input });
  }
  return { made, gone: [...standing.values()].map(({ id }) => id) };
}

/** While less has gone back than was recovered nothing was added, and there is nothing to keep a sheet of. */
const kept = (answer: LeakRateAnswer): readonly Calculation[] =>
  answer.inScope === true ? answer.calculations.filter((calculation) => calculation.exact !== '0') : [];

interface NewRow {
  circuitId: string;
  rulebook: string;
  id: string;
  number: number;
  method: string;
  result: KeptCalculation;
  input: object;
}
function row(desk: Work, { result, input, ...rest }: NewRow): Omit<Prisma.CalculationCreateManyInput, 'tenantId'> {
  return {
    ...rest,
    rulebookVersion: result.rulebookVersion,
    onDay: dayToDate(result.day),
    at: toDate(result.at),
    input: input as Prisma.InputJsonValue,
    result: result as unknown as Prisma.InputJsonValue,
    rateText: String(result.ratePercentPerYear),
    over: result.over,
    standing: true,
    madeAt: toDate(desk.recordedAt),
  };
}

/** JSON of the database comes back with its keys in another order. */
function sameResult(kept: unknown, wanted: KeptCalculation): boolean {
  const sorted = (value: unknown): unknown => {
    if (Array.isArray(value)) return value.map(sorted);
    if (value === null || typeof value !== 'object') return value;
    return Object.fromEntries(
      Object.entries(value)
        .sort(([a], [b]) => (a < b ? -1 : 1))
        .map(([key, inner]) => [key, sorted(inner)]),
    );
  };
  return JSON.stringify(sorted(kept)) === JSON.stringify(sorted(JSON.parse(JSON.stringify(wanted))));
}
