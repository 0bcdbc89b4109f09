import type { EvacuationAdvice, EvacuationQuery } from '@ullage/contracts';
import { evacuationLevel } from '@ullage/rulebook';
import { fromKpa } from '@ullage/units';
import type { EnteredMass } from '@ullage/units';
import { siteBarometerKpa } from '../commands/site-readings.ts';
import { notFound } from '../pipeline/case.ts';
import type { Viewer } from '../views/viewer.ts';
import { LATEST_FULL_CHARGE } from '../law/latest-full-charge.ts';

/** Machines in use today were made after the rule's date (15 November 1993); an older one says its own date. */
const MODERN_MACHINE = '2000-01-01';

/** To what level the law wants the part evacuated before it is opened, and what going lower risks. */
export async function evacuationAdvice(
  viewer: Viewer,
  asked: EvacuationQuery & { visitId: string },
): Promise<EvacuationAdvice> {
  const { tx, tenantId } = viewer;
  const link = await tx.visitCircuit.findUnique({
    where: { tenantId_visitId_circuitId: { tenantId, visitId: asked.visitId, circuitId: asked.circuitId } },
    include: {
      circuit: { include: { fullCharges: LATEST_FULL_CHARGE } },
      visit: { include: { site: true } },
    },
  });
  const full = link?.circuit.fullCharges[0];
  if (!link || !full) throw notFound();
  const siteKpa = siteBarometerKpa(link.visit.site);
  const answer = evacuationLevel({
    refrigerant: link.circuit.refrigerant,
    fullCharge: { value: full.value, unit: full.unit } as EnteredMass,
    machineMadeOn: asked.machineMadeOn ?? MODERN_MACHINE,
    barometerKpa: siteKpa,
    evacuateAfter: asked.evacuateAfter,
    leakingPart: asked.openLeak,
    isolatable: asked.part === 'isolated',
    work: {
      ...(asked.removes === undefined ? {} : { removes: asked.removes }),
      ...(asked.openingSquareInches === undefined ? {} : { openingSquareInches: asked.openingSquareInches }),
      ...(asked.openMinutes === undefined ? {} : { openMinutes: asked.openMinutes }),
    },
  });
  return {
    levelText: answer.levelText,
    levelKpa: answer.levelKpa,
    levelPsig: answer.levelKpa === null ? null : Math.round(fromKpa(answer.levelKpa, 'psig', siteKpa) * 10) / 10,
    siteKpa,
    clause: answer.clause,
    major: answer.major === true,
    risk: asked.openLeak
      ? `Below ${siteKpa.toFixed(1)} kPa an open leak draws air into the cylinder: it then reads “suspected air” until its air check.`
      : null,
  };
}
