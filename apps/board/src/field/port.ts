/**
 * What the technician's screens need from the outside. Today the API answers; a store on the device can take its place
 * without a screen changing.
 */
import type {
  CommandAnswer,
  CommandBody,
  CommandName,
  CylinderListView,
  CylinderUseAdvice,
  CylinderView,
  EvacuationAdvice,
  EvacuationQuery,
  MeView,
  Problem,
  VisitListView,
  VisitView,
} from '@ullage/contracts';
import type { Draft, DraftPlace } from './drafts.ts';
import type { Queued } from './outbox.ts';

/** A read that failed comes back as a value; `status` 0 is a lost connection. */
export type Read<T> = { readonly ok: true; readonly data: T } | { readonly ok: false; readonly problem: Problem };

/** A command with its body as the contract has it. */
export interface Command<K extends CommandName = CommandName> {
  readonly kind: K;
  readonly body: CommandBody<K>;
  readonly happenedAt: string;
  readonly dependsOn?: readonly string[];
  readonly place: DraftPlace;
  /** Carries the command's id under `command`, made before this call. */
  readonly draft: Draft;
  readonly said: string;
  readonly makes?: readonly string[];
}
/** `kept`: safe on this phone, goes out when there is a signal. `full`: this phone could not keep it, nothing was sent. */
export type Sent =
  { readonly is: 'answered'; readonly answer: CommandAnswer } | { readonly is: 'kept' } | { readonly is: 'full' };

export type Line =
  | { readonly is: 'sent'; readonly at: string | null }
  | { readonly is: 'sending' }
  | { readonly is: 'offline'; readonly since: string }
  | { readonly is: 'signed-out' };
/** Where this person's notes are. A new object after every change. */
export interface Sync {
  readonly line: Line;
  readonly queued: readonly Queued[];
}

export type CylinderRoom = Pick<CylinderView, 'grossLimitKg' | 'roomKg' | 'mayFill' | 'whyNot'>;

export interface FieldPort {
  me(): Promise<Read<MeView>>;
  /** The stops of a person on a day (`2026-04-30`). */
  today(asked: { day: string; personId: string }): Promise<Read<VisitListView>>;
  visit(id: string): Promise<Read<VisitView>>;
  evacuation(visitId: string, asked: EvacuationQuery): Promise<Read<EvacuationAdvice>>;
  /** Cylinders whose serial or label fits what was typed; the first page of all for nothing typed. */
  cylinders(query: string): Promise<Read<CylinderListView>>;
  cylinder(id: string): Promise<Read<CylinderView>>;
  /** What stops an act with a cylinder on a circuit, and what to mind, asked before it. */
  cylinderUse(id: string, asked: { act: 'charge' | 'recovery'; circuitId: string }): Promise<Read<CylinderUseAdvice>>;
  /** How much of a gas an empty cylinder may take: its own page cannot know which gas it will be. */
  room(cylinder: CylinderView, refrigerant: string): Promise<Read<CylinderRoom>>;
  /** Keeps the command on this device first, then sends it; the promise waits for the answer while there is a signal. */
  send<K extends CommandName>(command: Command<K>): Promise<Sent>;
  /** Takes a refused command's fields back into its step. */
  giveBack(id: string): boolean;
  /** Tries to send now. */
  retry(): void;
  readonly sync: () => Sync;
  /** Called after a change of the server's data (`data`) or of what waits here (`sync`). */
  subscribe(onChange: (what: 'data' | 'sync') => void): () => void;
}
