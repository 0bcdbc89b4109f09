import { duties as dutiesOf, RULEBOOK_IDS } from '@ullage/rulebook';
import type { Duty, Episode } from '@ullage/rulebook';
import { dayToDate, toDate } from '../pipeline/case.ts';
import type { Work } from '../pipeline/case.ts';
import { proposeReturns } from '../visits/return-visits.ts';
import { writeCalculations } from './calculations.ts';
import { circuitFile, factOfEvent } from './circuit-file.ts';
import { projectLeakPoints } from './leak-points.ts';
import { putRemindersInOrder } from './reminders.ts';

/**
 * Works a circuit's legal state out anew from all its facts: calculations, episodes, duties with their evidence, return
 * visits and reminders. Called in the transaction of whatever changed a fact, with the circuit locked, so that a late or
 * corrected fact moves everything that rests on it.
 */
export async function recomputeCircuit(desk: Work, circuitId: string): Promise<void> {
  const file = await circuitFile(desk.tx, desk.tenantId, circuitId);
  const { method, timeZone, facts: circuit, events } = file;
  const asOf = desk.recordedAt;
  await writeCalculations(desk, file);
  await projectLeakPoints(desk, circuitId);
  const answer = dutiesOf({ rulebooks: RULEBOOK_IDS, method, timeZone, asOf, circuit, events }, desk.world.calendar);
  await writeEpisodes(desk, circuitId, answer.episodes);
  await writeDuties(desk, circuitId, answer.duties);
  await proposeReturns(desk, circuitId);
  await putRemindersInOrder(desk, { circuitId, timeZone });
}

async function writeEpisodes(desk: Work, circuitId: string, episodes: readonly Episode[]): Promise<void> {
  const { tx, tenantId } = desk;
  for (const episode of episodes) {
    const key = { tenantId, circuitId, rulebook: episode.rulebook, key: episode.id };
    const data = {
      openedAt: toDate(episode.openedAt),
      closedAt: episode.closedAt === null ? null : toDate(episode.closedAt),
      state: episode.closedBy ?? 'open',
      updatedAt: toDate(desk.recordedAt),
    };
    await tx.episode.upsert({
      where: { tenantId_circuitId_rulebook_key: key },
      create: { ...key, ...data },
      update: data,
    });
  }
  const keep = episodes.map((episode) => episode.id);
  const gone = { tenantId, circuitId, key: { notIn: keep }, state: { not: 'withdrawn' } };
  await tx.episode.updateMany({ where: gone, data: { state: 'withdrawn', updatedAt: toDate(desk.recordedAt) } });
}

/** Duties keep their identity by natural key; what no longer follows is withdrawn, never deleted. */
async function writeDuties(desk: Work, circuitId: string, wanted: readonly Duty[]): Promise<void> {
  const { tx, tenantId } = desk;
  const standing = new Map((await tx.duty.findMany({ where: { tenantId, circuitId } })).map((row) => [row.key, row]));
  for (const duty of wanted) {
    const known = standing.get(duty.key);
    standing.delete(duty.key);
    const data = columns(duty);
    if (!known) {
      const id = desk.world.newId();
      await tx.duty.create({
        data: { tenantId, id, circuitId, ...identity(duty), ...data, version: 1, updatedAt: toDate(desk.recordedAt) },
      });
      await writeEvidence(desk, id, duty);
      desk.changed('duty', id, 'made');
      continue;
    }
    if (differs(known, data)) {
      const where = { tenantId_id: { tenantId, id: known.id } };
      await tx.duty.update({ where, data: { ...data, version: { increment: 1 }, updatedAt: toDate(desk.recordedAt) } });
      desk.changed('duty', known.id);
    }
    await writeEvidence(desk, known.id, duty);
  }
  for (const gone of standing.values()) {
    if (gone.state === 'withdrawn') continue;
    const where = { tenantId_id: { tenantId, id: gone.id } };
    await tx.duty.update({
      where,
      data: { state: 'withdrawn', version: { increment: 1 }, updatedAt: toDate(desk.recordedAt) },
    });
    desk.changed('duty', gone.id);
  }
}

/** The natural key and what it is made of: these never change. */
const identity = ({ rulebook, kind, key, episode }: Duty) => ({ rulebook, kind, key, episode });
const columns = (duty: Duty) => ({
  clause: duty.clause,
  responsible: duty.responsible,
  sinceAt: toDate(duty.sinceAt),
  opensAt: duty.opensAt === undefined ? null : toDate(duty.opensAt),
  dueAt: duty.dueAt === null ? null : toDate(duty.dueAt),
  dueOn: duty.dueOn === null ? null : dayToDate(duty.dueOn),
  everyMonths: duty.everyMonths ?? null,
  provisional: duty.provisional,
  state: duty.state,
  why: duty.why,
  flags: [...duty.flags],
  leakPointIds: [...(duty.leakIds ?? [])],
  rulebookVersion: duty.rulebookVersion,
});
type Columns = ReturnType<typeof columns>;

function differs(known: { [K in keyof Columns]: unknown }, wanted: Columns): boolean {
  const plain = (value: unknown): string => JSON.stringify(value ?? null);
  return (Object.keys(wanted) as (keyof Columns)[]).some((name) => plain(known[name]) !== plain(wanted[name]));
}

async function writeEvidence(desk: Work, dutyId: string, duty: Duty): Promise<void> {
  const { tx, tenantId } = desk;
  const wanted = [...new Set(duty.dischargedBy.map(factOfEvent))];
  await tx.dutyEvidence.deleteMany({ where: { tenantId, dutyId, factId: { notIn: wanted } } });
  await tx.dutyEvidence.createMany({
    data: wanted.map((factId) => ({ tenantId, dutyId, factId })),
    skipDuplicates: true,
  });
}
