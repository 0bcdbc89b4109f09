/** What the generator hands to the office: commands with their moment and sender, in pieces that may run side by side. */
import type { CommandBody, CommandName, Role } from '@ullage/contracts';
import type { Instant } from '@ullage/units';
import type { Driver } from './names.ts';

/** Who sends a command: a role with a sign-in, or a technician by name. */
export type Sender = Exclude<Role, 'auditor'> | Driver;
interface Sent {
  readonly at: Instant;
  readonly by: Sender;
  readonly id: string;
}
export type Command = Sent & { [K in CommandName]: { readonly kind: K; readonly body: CommandBody<K> } }[CommandName];

/**
 * Goes to the visit that the law has proposed for a circuit. Nobody can know its id before, so the steps after name it by
 * `visitId`; where nothing was proposed, a call under that id is taken.
 */
export interface Return {
  readonly kind: 'return';
  readonly at: Instant;
  readonly tag: string;
  readonly purpose: 'repair' | 'follow-up' | 'inspection';
  readonly visitId: string;
  readonly callId: string;
  readonly call: CommandBody<'take-call'>;
}
/** Marks as billed what visits up to a day have charged. */
export interface Billing {
  readonly kind: 'billing';
  readonly at: Instant;
  readonly upToDay: string;
  /** Begins the numbers of the invoices. */
  readonly series: string;
}
export type Step = Command | Return | Billing;

/** Steps of one visit or errand, in their order. Two that touch the same thing are told one after the other. */
export interface Task {
  readonly name: string;
  readonly touches: readonly string[];
  readonly steps: readonly Step[];
}
