import { leakRate, RULEBOOK_IDS } from '@ullage/rulebook';
import type { Calculation, LeakRateAnswer } from '@ullage/rulebook';
import type { Prisma } from '@ullage/database';
import { dayToDate, toDate } from '../pipeline/case.ts';
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
export async function writeCalculations(desk: Work, file: CircuitFile): Promise<void> {
  for (const rulebook of RULEBOOK_IDS) {
    const { method, timeZone, facts, events } = file;
    const answer = leakRate(
      { ...facts, rulebook, method, timeZone, asOf: desk.recordedAt, events },
      desk.world.calendar,
    );
    await keep(desk, file, answer);
  }
}

async function keep(desk: Work, file: CircuitFile, answer: LeakRateAnswer): Promise<void> {
  const { tx, tenantId } = desk;
  const where = { tenantId, circuitId: file.circuitId, rulebook: answer.rulebook };
  const rows = await tx.calculation.findMany({ where, orderBy: { number: 'asc' } });
  const standing = new Map(
    rows.filter((row) => row.standing).map((row) => [row.onDay.toISOString().slice(0, 10), row]),
  );
  let number = rows.at(-1)?.number ?? 0;
  for (const calculation of kept(answer)) {
    const known = standing.get(calculation.day);
    const result: KeptCalculation = { ...calculation, rulebookVersion: answer.rulebookVersion };
    if (known && sameResult(known.result, result)) {
      standing.delete(calculation.day);
      continue;
    }
    number += 1;
    const id = desk.world.newId();
    await tx.calculation.create({
      data: row(desk, { ...where, id, number, method: file.method, result, input: file.facts }),
    });
    desk.changed('calculation', id, 'made');
  }
  for (const gone of standing.values()) {
    await tx.calculation.update({ where: { tenantId_id: { tenantId, id: gone.id } }, data: { standing: false } });
    desk.changed('calculation', gone.id);
  }
}

/** While less has gone back than was recovered nothing was added, and there is nothing to keep a sheet of. */
const kept = (answer: LeakRateAnswer): readonly Calculation[] =>
  answer.inScope === true ? answer.calculations.filter((calculation) => calculation.exact !== '0') : [];

interface NewRow {
  tenantId: string;
  circuitId: string;
  rulebook: string;
  id: string;
  number: number;
  method: string;
  result: KeptCalculation;
  input: object;
}
function row(desk: Work, { result, input, ...rest }: NewRow): Prisma.CalculationUncheckedCreateInput {
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
