import type { World } from '../office.ts';
import { toDate } from '../pipeline/case.ts';
import type { Work } from '../pipeline/case.ts';
import { nightWork } from './night-work.ts';

/** A job that keeps failing: the queue has dropped it, a person decides whether it is tried again. */
export interface DeadJob {
  readonly jobId: string;
  /** What it was about; nothing when its own data are not readable. */
  readonly subject: { readonly kind: 'duty' | 'circuit'; readonly id: string } | null;
  /** A sentence for a person: no id, no message of a library. */
  readonly text: string;
}

/** One open item per job, however often it dies. One that a person left out is not brought up again. */
export function holdDeadJob(world: World, tenantId: string, job: DeadJob): Promise<void> {
  return nightWork(world, { tenantId, action: 'job-failed' }, (desk) => hold(desk, job));
}

export async function hold(desk: Work, job: DeadJob): Promise<void> {
  const { tx, tenantId } = desk;
  // Two that see it die at once make one item.
  await tx.$executeRaw`SELECT pg_advisory_xact_lock(hashtextextended(${job.jobId}, 0))`;
  if ((await lyingWithAPerson(desk, [job.jobId])).length > 0) return;
  const id = desk.world.newId();
  await tx.attention.create({
    data: {
      tenantId,
      id,
      kind: 'job',
      reason: 'job-failed',
      problem: { type: '/problems/internal', title: 'Something keeps failing', detail: job.text, job: job.jobId },
      subjectKind: job.subject?.kind ?? null,
      subjectId: job.subject?.id ?? null,
      openedAt: toDate(desk.recordedAt),
    },
  });
  desk.changed('attention', id, 'made');
}

export function heldJobs(world: World, tenantId: string, jobIds: readonly string[]): Promise<ReadonlySet<string>> {
  return world.database.inTenant(
    tenantId,
    async (tx) => new Set((await lyingWithAPerson({ tx, tenantId }, jobIds)).map((row) => row.job)),
  );
}

/** Those of the jobs that a person has to decide about, or has left out. */
export async function lyingWithAPerson(
  { tx, tenantId }: Pick<Work, 'tx' | 'tenantId'>,
  jobIds: readonly string[],
): Promise<{ job: string; left: boolean }[]> {
  return tx.$queryRaw<{ job: string; left: boolean }[]>`
    SELECT problem ->> 'job' AS job, closed_at IS NOT NULL AS left FROM attention
    WHERE tenant_id = ${tenantId}::uuid AND kind = 'job' AND problem ->> 'job' = ANY(${[...jobIds]}::text[])
    AND (closed_at IS NULL OR closed_how = 'leave-out')`;
}

/** True when a person decided that this job is not to be done. */
export async function wasLeftOut(desk: Pick<Work, 'tx' | 'tenantId'>, jobId: string): Promise<boolean> {
  return (await lyingWithAPerson(desk, [jobId])).some((row) => row.left);
}

/** Closes the item of a job that was done after all. */
export async function settleDeadJob(desk: Work, jobId: string): Promise<void> {
  const rows = await desk.tx.$queryRaw<{ id: string }[]>`
    UPDATE attention SET closed_at = ${toDate(desk.recordedAt)}, closed_how = 'done'
    WHERE tenant_id = ${desk.tenantId}::uuid AND kind = 'job' AND problem ->> 'job' = ${jobId} AND closed_at IS NULL
    RETURNING id`;
  for (const { id } of rows) desk.changed('attention', id);
}
