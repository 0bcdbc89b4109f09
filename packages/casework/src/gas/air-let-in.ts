/** Air that a recovery below site pressure may have let in: what was open then, and the bound on it. */
import type { Raised } from '@ullage/gasbook';
import { airDrawn } from '@ullage/thermo';
import type { Instant } from '@ullage/units';
import type { Pressure } from '@ullage/contracts';
import { COUNTS, leakStateAt } from '../law/leak-points.ts';
import type { LeakFact } from '../law/leak-points.ts';
import { readingKpa } from '../commands/site-readings.ts';
import { toInstant } from '../pipeline/case.ts';
import type { GasFact, Source } from './gas-facts.ts';

/** Warm air is thinner and a hole of the same rate is larger: the warmest plausible day keeps the bound on the safe side. */
const AIR_K = 313.15;
/** The least pressure a leak was sized at that still gives a bound: 100 kPa over the barometer (common practice: standing gas). */
const LEAST_DRIVING_KPA = 100;

interface LeakRow {
  readonly id: string;
  readonly circuitId: string;
  readonly visitId: string | null;
  readonly foundAt: Date;
  readonly highGramsPerYear: unknown;
}
/** Leaks of some circuits, and the facts that repaired, tested or left them. */
export interface Leaks {
  readonly points: readonly LeakRow[];
  readonly facts: readonly (LeakFact & { readonly circuitId: string | null })[];
}

type AtSite = GasFact & { readonly readAgainst: NonNullable<GasFact['readAgainst']> };
/** Below the barometer of its site, with a leak open in what was recovered. */
function drewAir(fact: GasFact): fact is AtSite {
  if (fact.kind !== 'recovery' || fact.body.openLeak !== true || !fact.readAgainst) return false;
  const reading = fact.body.stop as Pressure;
  return readingKpa({ field: 'stop', label: 'Stopped at', reading }, fact.readAgainst) < fact.readAgainst.barometerKpa;
}

/** Leaks of the circuits from which air may have been drawn; nothing is read where there are none. */
export async function leaksBehind({ tx, tenantId }: Source, facts: readonly GasFact[]): Promise<Leaks> {
  const circuitIds = [...new Set(facts.filter(drewAir).flatMap((fact) => fact.circuitId ?? []))];
  if (circuitIds.length === 0) return { points: [], facts: [] };
  const points = await tx.leakPoint.findMany({ where: { tenantId, circuitId: { in: circuitIds } } });
  const rows = await tx.fact.findMany({
    where: { tenantId, circuitId: { in: circuitIds }, kind: { in: ['repair', 'verification', 'consent'] }, ...COUNTS },
    include: { factRefs: true },
    orderBy: [{ happenedAt: 'asc' }, { id: 'asc' }],
  });
  return { points, facts: rows };
}

/** The doubt that follows from a recovery; none where no air was drawn. */
export function airLetIn(fact: GasFact, leaks: Leaks): Raised[] {
  if (!drewAir(fact) || !fact.circuit) return [];
  const minutes = fact.body.minutesBelowSite as number | undefined;
  const highGrams = minutes === undefined ? null : boundOf(fact, leaks, minutes);
  // Kept to the millionth, as the database does: a replay must find what it wrote.
  const kept = minutes === undefined ? null : Math.round(minutes * 1e6) / 1e6;
  return [{ cause: 'recovery-below-site-pressure-open-leak', lowGrams: 0, highGrams, minutes: kept }];
}

/** Grams of air at most, or null without a bound: no leak point found, or one of unknown size. */
function boundOf(fact: AtSite, leaks: Leaks, minutes: number): number | null {
  const open = leaks.points.filter((leak) => wasOpen(leak, fact, leaks));
  if (open.length === 0) return null;
  const siteBarometer = fact.readAgainst.barometerKpa;
  let grams = 0;
  for (const { highGramsPerYear: size } of open) {
    const drawn = airDrawn({
      leak:
        size === null
          ? { kind: 'unknown' }
          : {
              kind: 'rate',
              refrigerant: fact.circuit?.refrigerant ?? '',
              gramsPerYearAtMost: Number(size),
              pressureKpaAtLeast: siteBarometer + LEAST_DRIVING_KPA,
              temperatureKAtMost: AIR_K,
            },
      siteBarometerKpa: siteBarometer,
      airTemperatureK: 273.15,
      minutesBelowSite: minutes,
    });
    if (!drawn.bounded) return null;
    grams += drawn.gramsAtMost;
  }
  return grams;
}

/** Known by then, or found later at the same visit: it was there. One that was repaired before does not count. */
function wasOpen(leak: LeakRow, fact: GasFact, leaks: Leaks): boolean {
  if (leak.circuitId !== fact.circuitId) return false;
  const foundAt: Instant = toInstant(leak.foundAt);
  if (foundAt > fact.happenedAt && (leak.visitId === null || leak.visitId !== fact.visitId)) return false;
  const of = leaks.facts.filter(({ circuitId }) => circuitId === leak.circuitId);
  return ['open', 'deferred', 'declined'].includes(leakStateAt(leak, of, fact.happenedAt));
}
