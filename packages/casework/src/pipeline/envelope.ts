import { COMMANDS, Envelope, faultsOf, isCommandName, may, plainWords, Refusal, requestOf } from '@ullage/contracts';
import type { CommandBody, CommandName } from '@ullage/contracts';
import type { Instant } from '@ullage/units';
import type { Actor, DeskCommand, World } from '../office.ts';

/** A command on its way in, read but not yet checked in substance. */
export interface Incoming {
  readonly id: string;
  readonly kind: CommandName;
  /** As it came, for the hash and for keeping. */
  readonly received: unknown;
  readonly body: CommandBody<CommandName>;
  readonly happenedAt: Instant;
  readonly dependsOn: readonly string[];
  readonly device?: {
    readonly id: string;
    readonly seq: number;
    readonly sentAt: Instant;
    readonly skewSeconds: number;
  };
}

/** A device's clock that is off by more is put right by the difference, and both times are kept. */
const SKEW_NOTICED_SECONDS = 120;
/** Later than now by more than this is no fact yet. */
const FUTURE_SECONDS = 300;

function allow(actor: Actor, kind: CommandName): void {
  if (!may(actor.role, COMMANDS[kind].permission)) {
    throw new Refusal('not-allowed', 'Your role does not do this; ask the owner or a manager.');
  }
}

function assertNotFuture(world: World, happenedAt: Instant): void {
  const ahead = world.calendar.epochMs(happenedAt) - world.calendar.epochMs(world.now());
  if (ahead > FUTURE_SECONDS * 1000) {
    const detail = 'Time: lies in the future; check the clock of the device.';
    throw new Refusal('not-possible', detail, { errors: [{ pointer: '#/happenedAt', detail }] });
  }
}

/** Reads a desk's command; one that was kept was received earlier, and happened then unless it says. @throws Refusal with every field that is wrong */
export function readDesk(
  world: World,
  actor: Actor,
  command: DeskCommand & { readonly receivedAt?: Instant },
): Incoming {
  allow(actor, command.kind);
  const parsed = requestOf(command.kind).safeParse(command.received, { error: plainWords });
  if (!parsed.success) throw new Refusal('not-valid', 'Some fields are not right.', { errors: faultsOf(parsed.error) });
  const { happenedAt = command.receivedAt ?? world.now(), dependsOn = [], body } = parsed.data;
  const at = world.calendar.instant(happenedAt);
  assertNotFuture(world, at);
  return {
    id: command.id,
    kind: command.kind,
    received: { kind: command.kind, ...(command.received as object) },
    body,
    happenedAt: at,
    dependsOn,
  };
}

/** What can be known of an envelope before its body is read: enough to keep it. */
export function readHead(received: unknown) {
  const parsed = Envelope.safeParse(received, { error: plainWords });
  if (!parsed.success)
    throw new Refusal('not-valid', 'The command is not in order.', { errors: faultsOf(parsed.error) });
  return parsed.data;
}

/** Reads a device's command; its clock was wrong by what it said when it was first received. @throws Refusal; the caller keeps the envelope whole as an attention item */
export function readDevice(
  world: World,
  actor: Actor,
  given: { received: unknown; sentAt: Instant; receivedAt?: Instant },
): Incoming {
  const head = readHead(given.received);
  if (!isCommandName(head.schema))
    throw new Refusal('not-valid', 'This app is newer than the office; update the office.');
  allow(actor, head.schema);
  const parsed = COMMANDS[head.schema].body.safeParse(head.body, { error: plainWords });
  if (!parsed.success) {
    const errors = faultsOf(parsed.error).map((fault) => ({ ...fault, pointer: fault.pointer.replace('#', '#/body') }));
    throw new Refusal('not-valid', 'Some fields are not right.', { errors });
  }
  const { calendar } = world;
  const skewMs = calendar.epochMs(given.receivedAt ?? world.now()) - calendar.epochMs(given.sentAt);
  const noticed = Math.abs(skewMs) > SKEW_NOTICED_SECONDS * 1000;
  const stated = calendar.epochMs(calendar.instant(head.happenedAt));
  const happenedAt = calendar.fromEpochMs(noticed ? stated + skewMs : stated);
  assertNotFuture(world, happenedAt);
  return {
    id: head.id,
    kind: head.schema,
    received: given.received,
    body: parsed.data,
    happenedAt,
    dependsOn: head.dependsOn,
    device: {
      id: head.device,
      seq: head.deviceSeq,
      sentAt: given.sentAt,
      skewSeconds: noticed ? Math.round(skewMs / 1000) : 0,
    },
  };
}
