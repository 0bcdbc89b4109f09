import { DutyReminder } from '@ullage/contracts';
import type { DutyReminderBody } from '@ullage/contracts';
import { OnWorkerEvent, Processor, WorkerHost } from '@nestjs/bullmq';
import { Inject } from '@nestjs/common';
import { UnrecoverableError } from 'bullmq';
import type { Job } from 'bullmq';
import * as z from 'zod';
import { PARTS } from '../../parts.ts';
import type { Parts } from '../../parts.ts';
import { LOCK_MS, STALLED_CHECK_MS } from '../../queue/backend.ts';
import { watched } from '../../queue/watched.ts';

const WithTenant = z.object({ tenantId: z.uuid() });

@Processor(DutyReminder.name, {
  concurrency: 4,
  lockDuration: LOCK_MS,
  stalledInterval: STALLED_CHECK_MS,
  maxStalledCount: 5,
})
export class RemindersProcessor extends WorkerHost {
  readonly #parts: Parts;
  constructor(@Inject(PARTS) parts: Parts) {
    super();
    this.#parts = parts;
  }

  /** Safe to run twice, late, or for a duty that has gone. One that runs early is put back by the sweep. */
  async process(job: Job<unknown>): Promise<void> {
    const body = DutyReminder.body.safeParse(job.data);
    if (!body.success) throw new UnrecoverableError('The job does not name a reminder.');
    const { night } = this.#parts;
    const attributes = {
      'messaging.message.id': job.id,
      'ullage.tenant_id': body.data.tenantId,
      'ullage.duty_id': body.data.dutyId,
    };
    await watched(
      this.#parts,
      { name: DutyReminder.name, attributes },
      async () => void (await night.remind(body.data)),
    );
  }

  /** The queue drops a failed job. A person sees it, and the sweep puts it back once they say so. */
  @OnWorkerEvent('failed')
  async onFailed(job: Job<unknown> | undefined, error: Error): Promise<void> {
    const { log, night } = this.#parts;
    const isLast = job !== undefined && (job.finishedOn !== undefined || error instanceof UnrecoverableError);
    const tenant = WithTenant.safeParse(job?.data);
    const about = { job: job?.id, tenant: tenant.data?.tenantId, attempts: job?.attemptsMade, last: isLast };
    log.trouble('a reminder failed', error, about);
    if (!isLast) return;
    if (!tenant.success) {
      log.failed('a job that names no contractor was dropped', { job: job.id });
      return;
    }
    const body = DutyReminder.body.safeParse(job.data);
    await night.hold(tenant.data.tenantId, deadReminder(job.id ?? '', body.data)).catch((lost: unknown) => {
      // It is still wanted: the sweep puts it back, and it fails again where it can be written down.
      log.trouble('a dead job was not written down', lost, { job: job.id });
    });
  }

  @OnWorkerEvent('error')
  onError(error: Error): void {
    this.#parts.log.trouble('reminder worker', error);
  }
}

const deadReminder = (jobId: string, body: DutyReminderBody | undefined) => ({
  jobId,
  subject: body ? { kind: 'duty' as const, id: body.dutyId } : null,
  text: 'A reminder could not be given. Try again, or leave it out and watch the date on the board.',
});
