import { duties as dutiesOf, RULEBOOK_IDS } from '@ullage/rulebook';
import type { Work } from '../pipeline/case.ts';
import { proposeReturns } from '../visits/return-visits.ts';
import { writeCalculations } from './calculations.ts';
import { circuitFiles } from './circuit-file.ts';
import { projectLeakPoints } from './leak-points.ts';
import { putRemindersInOrder } from './reminders.ts';
import { writeDuties } from './write-duties.ts';
import { writeEpisodes } from './write-episodes.ts';

/**
 * Works the legal state of some circuits out anew from all their facts: calculations, episodes, duties with their
 * evidence, return visits and reminders. Called in the transaction of whatever changed a fact, with the circuits locked, so
 * that a late or corrected fact moves everything that rests on it. Each step reads and writes all circuits at once: a visit to
 * a rack of eight circuits is one visit.
 */
export async function recomputeCircuits(desk: Work, circuitIds: readonly string[]): Promise<void> {
  if (circuitIds.length === 0) return;
  const files = await circuitFiles(desk.tx, desk.tenantId, circuitIds);
  await writeCalculations(desk, files);
  await projectLeakPoints(desk, circuitIds);
  const answers = files.map(({ circuitId, method, timeZone, facts: circuit, events }) => {
    const asked = { rulebooks: RULEBOOK_IDS, method, timeZone, asOf: desk.recordedAt, circuit, events };
    return { circuitId, ...dutiesOf(asked, desk.world.calendar) };
  });
  await writeEpisodes(desk, answers);
  await writeDuties(desk, answers);
  await proposeReturns(desk, files);
  await putRemindersInOrder(desk, files);
}
