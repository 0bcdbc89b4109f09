import type { DutyReminderBody, ImportStretchBody } from '@ullage/contracts';
import type { Instant } from '@ullage/units';
import type { ParcelRef } from '../leaving/parts.ts';
import { expireParcel, workParcel } from '../leaving/work.ts';
import type { Worked } from '../leaving/work.ts';
import type { World } from '../office.ts';
import { heldJobs, holdDeadJob } from './dead-jobs.ts';
import type { DeadJob } from './dead-jobs.ts';
import { importStretch, nextStretch } from './imports.ts';
import type { ReminderMail } from './mail-words.ts';
import { failMail, markMailed, takeMail } from './mails.ts';
import type { MailFailure, MailRef } from './mails.ts';
import { fail, markSent, openMessage, prune } from './outbox.ts';
import type { Failure, Message } from './outbox.ts';
import { recomputeDue } from './recompute-due.ts';
import type { Recomputed } from './recompute-due.ts';
import { remind, remindersOf } from './remind.ts';
import type { CircuitReminders, Reminded } from './remind.ts';
import { planWebhook, takeWebhook, webhookFailed, webhookTold } from '../webhooks/tell.ts';
import type { WebhookFailure, WebhookMail, WebhookRef } from '../webhooks/tell.ts';
import { carryOnReady, showLongWaits } from './waiting.ts';
import type { CarriedOn } from './waiting.ts';

/** What goes on while nobody asks. One per process; each call is one tenant's transaction and may safely be repeated. */
export interface Night {
  /** A message that waits in the outbox; undefined when it was sent already. */
  message(tenantId: string, id: string): Promise<Message | undefined>;
  /** True for the one caller that marked it. */
  sent(tenantId: string, id: string): Promise<boolean>;
  /** Counts a failed try; after too many, or at once for what can never be sent, a person sees it. */
  failed(tenantId: string, failure: Failure): Promise<void>;
  /** The reminders a circuit's duties want now, and those they want no more. */
  reminders(tenantId: string, circuitId: string): Promise<CircuitReminders>;
  /** Gives one reminder, if it is still wanted: a notice on the board, and its mails planned where mail is sent. */
  remind(body: DutyReminderBody): Promise<Reminded>;
  /** Takes one try of a mail, for the caller alone; undefined when there is nothing to send now. */
  takeMail(ref: MailRef): Promise<ReminderMail | undefined>;
  mailed(ref: MailRef): Promise<void>;
  /** The next try comes by itself; after too many, or at once for what can never be sent, a person sees it. */
  mailFailed(ref: MailRef, failure: MailFailure): Promise<void>;
  /** Plans a message for a webhook that was not told of everything yet. */
  planWebhook(webhook: WebhookRef): Promise<void>;
  /** Takes one try of a message, for the caller alone; undefined when there is nothing to send now. */
  takeWebhook(message: WebhookRef): Promise<WebhookMail | undefined>;
  webhookTold(message: WebhookRef, answer: string): Promise<void>;
  /** The next try comes by itself; after too many the webhook is stopped and a person is told. */
  webhookFailed(message: WebhookRef, failure: WebhookFailure): Promise<void>;
  /** Does one stretch of an import's work; gives the next, or nothing when it waits for a person. */
  importStretch(body: ImportStretchBody): Promise<ImportStretchBody | undefined>;
  /** The stretch that an import waits for, if it waits for one. */
  nextStretch(tenantId: string, importId: string): Promise<ImportStretchBody | undefined>;
  /** Makes a file of everything or takes one over, for as long as `goesOn` says; another goes on with the rest. */
  workParcel(ref: ParcelRef, goesOn: () => boolean): Promise<Worked>;
  /** Throws away the bytes of a file whose time is over. */
  expireParcel(ref: ParcelRef): Promise<void>;
  /** Shows a person a job that keeps failing. */
  hold(tenantId: string, job: DeadJob): Promise<void>;
  /** Those of the job ids that lie with a person, or were left out by one. */
  held(tenantId: string, jobIds: readonly string[]): Promise<ReadonlySet<string>>;
  /** Works out anew the circuits whose duties the mere passing of time has changed, or brought near. */
  recomputeDue(tenantId: string): Promise<Recomputed>;
  /** Carries out commands that were left waiting for nothing more, each device's in its own order. */
  carryOn(tenantId: string): Promise<CarriedOn>;
  /** Shows a person the commands that have waited longer than a day; gives how many. */
  showLongWaits(tenantId: string): Promise<number>;
  /** Deletes some of the messages sent before `until`, never one that waits; gives how many. */
  prune(tenantId: string, until: Instant): Promise<number>;
}

/** `mails`: whether reminders go out by mail as well. */
export function createNight(world: World, { mails = false }: { readonly mails?: boolean } = {}): Night {
  return {
    message: (tenantId, id) => openMessage(world, tenantId, id),
    sent: (tenantId, id) => markSent(world, tenantId, id),
    failed: (tenantId, failure) => fail(world, tenantId, failure),
    reminders: (tenantId, circuitId) => remindersOf(world, tenantId, circuitId),
    remind: (body) => remind(world, body, { mails }),
    takeMail: (ref) => takeMail(world, ref),
    mailed: (ref) => markMailed(world, ref),
    mailFailed: (ref, failure) => failMail(world, ref, failure),
    planWebhook: (webhook) => planWebhook(world, webhook),
    takeWebhook: (message) => takeWebhook(world, message),
    webhookTold: (message, answer) => webhookTold(world, message, answer),
    webhookFailed: (message, failure) => webhookFailed(world, message, failure),
    importStretch: (body) => importStretch(world, body),
    nextStretch: (tenantId, importId) => nextStretch(world, tenantId, importId),
    workParcel: (ref, goesOn) => workParcel(world, ref, goesOn),
    expireParcel: (ref) => expireParcel(world, ref),
    hold: (tenantId, job) => holdDeadJob(world, tenantId, job),
    held: (tenantId, jobIds) => heldJobs(world, tenantId, jobIds),
    recomputeDue: (tenantId) => recomputeDue(world, tenantId),
    carryOn: (tenantId) => carryOnReady(world, tenantId),
    showLongWaits: (tenantId) => showLongWaits(world, tenantId),
    prune: (tenantId, until) => prune(world, tenantId, until),
  };
}
