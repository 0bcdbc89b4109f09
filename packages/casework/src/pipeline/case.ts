import { Refusal } from '@ullage/contracts';
import type { CommandName, FieldFault } from '@ullage/contracts';
import type { Tx } from '@ullage/database';
import type { Instant } from '@ullage/units';
import type { Actor, World } from '../office.ts';

/** The tenant, as far as work depends on it. */
export interface TenantSettings {
  readonly id: string;
  readonly name: string;
  readonly locale: string;
  readonly timeZone: string;
  readonly massUnit: string;
  readonly pressureUnit: string;
  readonly temperatureUnit: string;
  /** What an air check may show above saturation in this shop. */
  readonly shopExcessKpa: unknown;
  readonly gwpSet: string;
  /** ISO 4217. */
  readonly currency: string;
  readonly demo: boolean;
}
export interface Change {
  readonly kind: string;
  readonly id: string;
  readonly op: 'made' | 'changed' | 'gone';
}
export interface Ask {
  readonly code: string;
  readonly text: string;
}
/** Something is booked and somebody should look: kept as an attention item until a person has. */
export interface Concern extends Ask {
  readonly subject: { readonly kind: 'cylinder' | 'circuit' | 'visit' | 'instrument'; readonly id: string };
  /** The earlier command that it is about, where it is not this one. */
  readonly of?: string;
}

/** Work inside one transaction of one tenant: what it touched, and what must be derived anew from that. */
export class Work {
  readonly tx: Tx;
  readonly world: World;
  readonly tenantId: string;
  /** When this is written down: one instant for the whole of it. */
  readonly recordedAt: Instant;
  readonly changes: Change[] = [];

  constructor(given: Pick<Work, 'tx' | 'world' | 'tenantId' | 'recordedAt'>) {
    this.tx = given.tx;
    this.world = given.world;
    this.tenantId = given.tenantId;
    this.recordedAt = given.recordedAt;
  }
  changed(kind: string, id: string, op: Change['op'] = 'changed'): void {
    if (!this.changes.some((change) => change.kind === kind && change.id === id)) this.changes.push({ kind, id, op });
  }
}

/**
 * One command being worked on, inside one transaction. Handlers write rows and note here what they touched; the pipeline
 * then derives the books and the law anew, and writes audit trail, outbox and feed, in that order.
 */
export class Case extends Work {
  readonly actor: Actor;
  readonly person: { readonly id: string; readonly name: string };
  readonly tenant: TenantSettings;
  readonly commandId: string;
  /** Questions back to whoever sent the command. */
  readonly asks: Ask[] = [];
  readonly concerns: Concern[] = [];
  /** Circuits whose legal state must be worked out anew. */
  readonly circuits = new Set<string>();
  /** Gas accounts whose derived postings must be worked out anew. */
  readonly accounts = new Set<string>();

  constructor(given: Pick<Case, 'tx' | 'world' | 'actor' | 'person' | 'tenant' | 'recordedAt' | 'commandId'>) {
    super({ ...given, tenantId: given.actor.tenantId });
    this.actor = given.actor;
    this.person = given.person;
    this.tenant = given.tenant;
    this.commandId = given.commandId;
  }
  ask(code: string, text: string): void {
    if (!this.asks.some((ask) => ask.code === code)) this.asks.push({ code, text });
  }
  /** Asks the sender, and leaves it to a person as well. */
  raise(concern: Concern): void {
    const { code, text } = concern;
    this.ask(code, text);
    if (!this.concerns.some((other) => other.code === code)) this.concerns.push(concern);
  }
  /** Leaves it to a person, without asking the sender: an earlier act now stands in another light. */
  leave(concern: Concern & { readonly of: string }): void {
    this.concerns.push(concern);
  }
}

/** A command that has passed its schema. */
export interface Received<Body> {
  readonly id: string;
  readonly kind: CommandName;
  readonly happenedAt: Instant;
  readonly body: Body;
}

/** Row timestamps are `Date` at Prisma's edge and `Instant` text everywhere else. */
export const toDate = (at: Instant): Date => new Date(at);
export const toInstant = (at: Date): Instant => at.toISOString();
/** Prisma gives a calendar day as midnight UTC. */
export const dayToDate = (day: string): Date => new Date(`${day}T00:00:00.000Z`);
export const dateToDay = (at: Date): string => at.toISOString().slice(0, 10);

/** The same answer for what is another tenant's and what does not exist. */
export const notFound = (): Refusal => new Refusal('not-found', 'There is nothing here under that id.');
/** Refuses one field of the body: which, and what would be right. */
export function refuseField(
  field: string,
  detail: string,
  code: 'not-possible' | 'not-valid' = 'not-possible',
): Refusal {
  const fault: FieldFault = { pointer: `#/body/${field}`, detail };
  return new Refusal(code, detail, { errors: [fault] });
}
