import type { World } from '../office.ts';
import { toDate } from '../pipeline/case.ts';
import type { Work } from '../pipeline/case.ts';
import { hold, lyingWithAPerson, settleDeadJob } from './dead-jobs.ts';
import { reminderMail } from './mail-words.ts';
import type { DutyToTell, ReminderMail } from './mail-words.ts';
import { nightWork } from './night-work.ts';

/** One notice's mail to one person. */
export interface MailRef {
  readonly tenantId: string;
  readonly noticeId: string;
  readonly personId: string;
}
export interface MailFailure {
  /** The server will not take this address tomorrow either. */
  readonly forGood: boolean;
  /** A word or a number for whoever looks into the table; a person on the board gets a sentence instead. */
  readonly why: string;
}

/** A person sees a mail that failed so often: after some two hours. */
const TRIES = 8;
/** Longer than a try may take: so long the one who took it is left alone. */
const FIRST_PAUSE_MS = 60_000;
const LONGEST_PAUSE_MS = 3_600_000;
const pauseMs = (tries: number): number => Math.min(FIRST_PAUSE_MS * 2 ** tries, LONGEST_PAUSE_MS);

const jobIdOf = ({ noticeId, personId }: MailRef): string => `mail|${noticeId}|${personId}`;
const waiting = ({ tenantId, noticeId, personId }: MailRef) => ({
  tenantId,
  noticeId,
  personId,
  sentAt: null,
  droppedAt: null,
});
const after = (desk: Work, ms: number): Date => new Date(toDate(desk.recordedAt).getTime() + ms);

/**
 * Everybody whom the notice addresses and who signs in gets a mail, planned in the transaction of the notice. The people
 * of a demo are invented, and so are their addresses: nothing is sent there.
 */
export async function planMails(desk: Work, notice: { readonly id: string; readonly role: string }): Promise<void> {
  const { tx, tenantId } = desk;
  const tenant = await tx.tenant.findUniqueOrThrow({ where: { id: tenantId }, select: { demo: true } });
  if (tenant.demo) return;
  const people = await tx.person.findMany({
    where: { tenantId, active: true, role: notice.role, userId: { not: null }, email: { not: null } },
    select: { id: true },
  });
  const nextAt = toDate(desk.recordedAt);
  await tx.noticeMail.createMany({
    data: people.map(({ id }) => ({ tenantId, noticeId: notice.id, personId: id, nextAt, tries: 0 })),
  });
}

/**
 * Takes one try of a mail, for the caller alone; undefined when there is nothing to send now. Whoever took it and died is
 * followed by another when the pause is over.
 */
export function takeMail(world: World, ref: MailRef): Promise<ReminderMail | undefined> {
  return nightWork(world, { tenantId: ref.tenantId, action: 'mail-taken' }, async (desk) => {
    const row = await readRow(desk, ref);
    if (!row || row.nextAt > toDate(desk.recordedAt)) return undefined;
    const [lies] = await lyingWithAPerson(desk, [jobIdOf(ref)]);
    const mail = lies?.left === true ? undefined : await wantedMail(desk, row);
    if (!mail) {
      await desk.tx.noticeMail.updateMany({ where: waiting(ref), data: { droppedAt: toDate(desk.recordedAt) } });
      await settleDeadJob(desk, jobIdOf(ref));
      return undefined;
    }
    // With a person, or spent by tries that nobody lived to tell of: looked at again when they may have decided.
    if (lies || row.tries >= TRIES) {
      await giveUp(desk, ref, { forGood: false, why: row.lastError ?? 'died' });
      return undefined;
    }
    const taken = await desk.tx.noticeMail.updateMany({
      where: { ...waiting(ref), nextAt: row.nextAt },
      data: { tries: row.tries + 1, nextAt: after(desk, pauseMs(row.tries)) },
    });
    return taken.count === 1 ? mail : undefined;
  });
}

export function markMailed(world: World, ref: MailRef): Promise<void> {
  return nightWork(world, { tenantId: ref.tenantId, action: 'mail-sent' }, async (desk) => {
    const data = { sentAt: toDate(desk.recordedAt), lastError: null };
    const marked = await desk.tx.noticeMail.updateMany({ where: waiting(ref), data });
    if (marked.count === 1) await settleDeadJob(desk, jobIdOf(ref));
  });
}

/** The next try comes by itself. After too many, or at once for what can never be sent, a person sees it. */
export function failMail(world: World, ref: MailRef, failure: MailFailure): Promise<void> {
  return nightWork(world, { tenantId: ref.tenantId, action: 'mail-failed' }, async (desk) => {
    const row = await desk.tx.noticeMail.findFirst({ where: waiting(ref) });
    if (!row) return;
    // What broke before the try was taken counts as one, or it would break at every look.
    const isTaken = row.nextAt > toDate(desk.recordedAt);
    const tries = isTaken ? row.tries : row.tries + 1;
    if (failure.forGood || tries >= TRIES) return giveUp(desk, ref, failure);
    const pause = isTaken ? {} : { tries, nextAt: after(desk, pauseMs(row.tries)) };
    await desk.tx.noticeMail.updateMany({ where: waiting(ref), data: { lastError: failure.why, ...pause } });
  });
}

/** Leaves it with a person. Should they want it tried again, it is tried as often as the first time. */
async function giveUp(desk: Work, ref: MailRef, { forGood, why }: MailFailure): Promise<void> {
  await desk.tx.noticeMail.updateMany({
    where: waiting(ref),
    data: { tries: 0, nextAt: after(desk, FIRST_PAUSE_MS), lastError: why },
  });
  const row = await readRow(desk, ref);
  if (!row) return;
  const { person, notice } = row;
  const what = forGood
    ? `The mail server refuses the address of ${person.name}.`
    : `A reminder could not be mailed to ${person.name}.`;
  await hold(desk, {
    jobId: jobIdOf(ref),
    subject: notice.dutyId === null ? null : { kind: 'duty', id: notice.dutyId },
    text: `${what} Try again, or leave it out: the notice stands on the board.`,
  });
}

/** The row with all that a mail says, while it waits. */
function readRow({ tx }: Work, ref: MailRef) {
  const circuit = { include: { unit: { include: { site: { include: { customer: true } } } } } } as const;
  return tx.noticeMail.findFirst({
    where: waiting(ref),
    include: {
      tenant: { select: { name: true } },
      person: true,
      notice: { include: { duty: { include: { circuit } } } },
    },
  });
}
type Row = NonNullable<Awaited<ReturnType<typeof readRow>>>;

/** Nothing for somebody who left or does other work now, for a duty that is over, or when a later reminder says more. */
async function wantedMail(desk: Work, { tenant, person, notice }: Row): Promise<ReminderMail | undefined> {
  const { duty } = notice;
  const isAddressed = person.active && person.userId !== null && person.role === notice.role;
  if (!isAddressed || person.email === null || !isOpen(duty)) return undefined;
  const { tenantId, dutyId, kind, at } = notice;
  const later = await desk.tx.notice.count({ where: { tenantId, dutyId, kind, at: { gt: at } } });
  return later > 0 ? undefined : reminderMail(desk, duty, { email: person.email, contractor: tenant.name });
}
const isOpen = (duty: Row['notice']['duty']): duty is NonNullable<typeof duty> & DutyToTell =>
  duty !== null && duty.state === 'open' && duty.dueAt !== null;
