import type { CommandBody } from '@ullage/contracts';
import type { TaintCause } from '@ullage/gasbook';
import { airDrawn } from '@ullage/thermo';
import { toDate } from '../pipeline/case.ts';
import type { Case } from '../pipeline/case.ts';

interface Recovery {
  readonly factId: string;
  readonly account: string;
  readonly body: CommandBody<'record-recovery'>;
  readonly stopKpa: number;
  readonly barometerKpa: number;
  readonly refrigerant: string;
}
/** Warm air is thinner and a hole of the same rate is larger: the warmest plausible day keeps the bound on the safe side. */
const AIR_K = 313.15;
/** The least pressure a leak was sized at that still gives a bound: 100 kPa over the barometer (common practice: standing gas). */
const LEAST_DRIVING_KPA = 100;

/** Marks the cylinder with what an open leak or an un-evacuated cylinder may have let in, with its bound in grams. */
export async function suspectAir(desk: Case, recovery: Recovery): Promise<void> {
  const { body, stopKpa, barometerKpa } = recovery;
  if (body.openLeak && stopKpa < barometerKpa) {
    const high = await boundOf(desk, recovery);
    await taint(desk, recovery, {
      cause: 'recovery-below-site-pressure-open-leak',
      high,
      minutes: body.minutesBelowSite ?? null,
    });
  }
  if (!body.cylinderEvacuated && (await isFirstFill(desk, recovery))) {
    await taint(desk, recovery, { cause: 'cylinder-not-evacuated', high: null, minutes: null });
  }
}

/** Grams of air at most, or null without a bound: minutes not said, no leak point found, or one of unknown size. */
async function boundOf(desk: Case, { body, barometerKpa, refrigerant }: Recovery): Promise<number | null> {
  const leaks = await desk.tx.leakPoint.findMany({
    where: { tenantId: desk.tenantId, circuitId: body.circuitId, state: { in: ['open', 'deferred', 'declined'] } },
  });
  if (body.minutesBelowSite === undefined || leaks.length === 0) return null;
  let grams = 0;
  for (const leak of leaks) {
    const size = leak.highGramsPerYear;
    const drawn = airDrawn({
      leak:
        size === null
          ? { kind: 'unknown' }
          : {
              kind: 'rate',
              refrigerant,
              gramsPerYearAtMost: Number(size),
              pressureKpaAtLeast: barometerKpa + LEAST_DRIVING_KPA,
              temperatureKAtMost: AIR_K,
            },
      siteBarometerKpa: barometerKpa,
      airTemperatureK: 273.15,
      minutesBelowSite: body.minutesBelowSite,
    });
    if (!drawn.bounded) return null;
    grams += drawn.gramsAtMost;
  }
  return grams;
}

async function isFirstFill(desk: Case, { body, factId }: Recovery): Promise<boolean> {
  const others = await desk.tx.factRef.count({
    where: {
      tenantId: desk.tenantId,
      cylinderId: body.cylinderId,
      factId: { not: factId },
      fact: { kind: 'recovery' },
    },
  });
  return others === 0;
}

async function taint(
  desk: Case,
  { factId, account, body }: Recovery,
  { cause, high, minutes }: { cause: TaintCause; high: number | null; minutes: number | null },
): Promise<void> {
  await desk.tx.taint.create({
    data: {
      tenantId: desk.tenantId,
      id: desk.world.newId(),
      accountId: account,
      cause,
      lowGrams: 0,
      highGrams: high,
      minutes,
      fromFactId: factId,
      visitId: body.visitId,
      createdAt: toDate(desk.recordedAt),
    },
  });
  desk.changed('cylinder', body.cylinderId);
}
