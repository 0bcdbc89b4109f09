/** Tells a new contractor everything that its file says has happened, in its order, by the pipeline that every command takes. */
import { HistoryLine, PARCEL_PART_BYTES, PersonLine, PhotoLine, Refusal } from '@ullage/contracts';
import type { CommandName, ParcelManifest } from '@ullage/contracts';
import type { Prisma } from '@ullage/database';
import { letTimePass } from '../night/recompute-due.ts';
import { nightWork } from '../night/night-work.ts';
import type { Actor, World } from '../office.ts';
import { applyOnce } from '../pipeline/apply.ts';
import { toDate } from '../pipeline/case.ts';
import { readDesk, readDevice } from '../pipeline/envelope.ts';
import type { Incoming } from '../pipeline/envelope.ts';
import { restored } from '../pipeline/envelope-text.ts';
import { hashOf } from '../pipeline/hash.ts';
import { importRow, importRun, importStands } from './take-imports.ts';
import type { Found } from './bad-file.ts';
import { photoBytes, smallBytes } from './check-file.ts';
import { differencesFrom, FOUND_MAX } from './compare.ts';
import type { Hold } from './hold.ts';
import { linesOf } from './lines.ts';
import { Renamed } from './renamed.ts';
import type { ZipIn } from './zip-in.ts';

type Line<What extends HistoryLine['what']> = Extract<HistoryLine, { what: What }>;
export interface TakingOver {
  readonly world: World;
  readonly tenantId: string;
  readonly zip: ZipIn;
  readonly hold: Hold;
  readonly manifest: ParcelManifest;
}
const json = (value: unknown): Prisma.InputJsonValue => value as Prisma.InputJsonValue;

/**
 * Takes a checked file over. Each line is a transaction of its own that may be begun again, so that whoever goes on after a
 * process that died finds what it had done and does the rest. Gives what differs from the books that the file tells of.
 * @throws Lost, Interrupted
 */
export async function takeOver(of: TakingOver): Promise<Found[]> {
  const { world, tenantId, manifest } = of;
  const { shopExcessKpa, currency: _, ...settings } = manifest.settings;
  const asThere = { ...settings, shopExcessKpa };
  await world.database.inTenant(tenantId, (tx) => tx.tenant.update({ where: { id: tenantId }, data: asThere }));
  const people = await takePeople(of);
  await takePhotos(of);
  const renamed = new Renamed();
  const refused = await tellHistory(of, { byUser: people.byUser, renamed });
  await world.database.inTenant(tenantId, async (tx) => {
    await tx.tenant.update({ where: { id: tenantId }, data: asThere });
    await tx.person.updateMany({ where: { tenantId, id: { in: people.gone } }, data: { active: false } });
  });
  await of.hold.say('compare', 0, 1);
  return [...refused, ...(await differencesFrom(of, renamed))].slice(0, FOUND_MAX);
}

interface People {
  readonly byUser: ReadonlyMap<string, string>;
  /** Those who had left. */
  readonly gone: string[];
}
/** They bear no sign-in here: whoever is invited under their address becomes them again. */
async function takePeople({ world, tenantId, zip }: TakingOver): Promise<People> {
  const byUser = new Map<string, string>();
  const gone: string[] = [];
  const name = 'people.jsonl';
  for await (const { line } of linesOf(name, { content: zip.content(name), shape: PersonLine })) {
    if (line.userId !== null) byUser.set(line.userId, line.id);
    if (!line.active) gone.push(line.id);
    if (line.byCommand) continue;
    const { id, email, createdAt } = line;
    const row = { tenantId, id, name: line.name, email, active: true, createdAt: toDate(createdAt) };
    await world.database.inTenant(tenantId, (tx) => tx.person.createMany({ data: [row], skipDuplicates: true }));
  }
  return { byUser, gone };
}

async function takePhotos({ world, tenantId, zip, hold, manifest }: TakingOver): Promise<void> {
  const name = 'photos.jsonl';
  for await (const { line, number } of linesOf(name, { content: zip.content(name), shape: PhotoLine })) {
    await hold.say('photos', number, manifest.counts.photos);
    const { hash, bytes, mediaType, width, height } = line;
    const where = { tenantId_hash: { tenantId, hash } };
    const known = await world.database.inTenant(tenantId, (tx) =>
      tx.blob.findUnique({ where, select: { state: true } }),
    );
    if (known) continue;
    const content = await photoBytes(zip, line);
    const small = line.small ? await smallBytes(zip, line) : undefined;
    await world.database.inTenant(tenantId, async (tx) => {
      await tx.blob.create({ data: { tenantId, hash, bytes, state: 'arriving', namedAt: toDate(line.namedAt) } });
      const parts = Array.from({ length: Math.ceil(bytes / PARCEL_PART_BYTES) }, (_, part) => ({
        tenantId,
        hash,
        number: part,
        content: new Uint8Array(content.subarray(part * PARCEL_PART_BYTES, (part + 1) * PARCEL_PART_BYTES)),
      }));
      await tx.blobChunk.createMany({ data: parts });
      const is = { mediaType, width, height, completeAt: toDate(line.completeAt) };
      const thumbnail = small === undefined ? null : new Uint8Array(small);
      await tx.blob.update({ where, data: { state: 'complete', ...is, thumbnail } });
    });
  }
}

/** What is known from earlier lines. */
interface Known {
  readonly byUser: ReadonlyMap<string, string>;
  readonly renamed: Renamed;
}
async function tellHistory(of: TakingOver, known: Known): Promise<Found[]> {
  const refused: Found[] = [];
  const name = 'history.jsonl';
  const { zip, hold, manifest } = of;
  for await (const { line, number } of linesOf(name, { content: zip.content(name), shape: HistoryLine })) {
    const why = await tell(of, line, known).catch((error: unknown) => {
      if (error instanceof Refusal) return error.message;
      throw error;
    });
    if (why !== undefined && refused.length < FOUND_MAX)
      refused.push({ where: `${name}, line ${number}`, detail: `${'kind' in line ? line.kind : line.what}: ${why}` });
    await hold.say('history', number, manifest.counts.history);
  }
  return refused;
}

/** Tells one line; says why it could not be. @throws Refusal */
function tell(of: TakingOver, asThere: HistoryLine, known: Known): Promise<string | undefined> {
  const line = known.renamed.here(asThere);
  switch (line.what) {
    case 'command':
      return command(of, line, { ...known, there: 'answer' in asThere ? asThere.answer : null });
    case 'kept':
      return kept(of, line);
    case 'attention':
      return attention(of, line);
    case 'settled':
      return settled(of, line);
    case 'time-passed':
      return timePassed(of, line);
    case 'import':
      return importRun(of, line);
    case 'import-row':
      return importRow(of, line);
    case 'import-stands':
      return importStands(of, line);
    case 'reminded':
      return reminded(of, line);
  }
}

/** The office's clock stands where it stood. */
const asOf = (world: World, at: string): World => ({ ...world, now: () => at });

async function command(
  { world, tenantId }: TakingOver,
  line: Line<'command'>,
  { byUser, renamed, there }: Known & { readonly there: unknown },
): Promise<string | undefined> {
  const then = asOf(world, line.appliedAt);
  const { receivedAt } = line;
  const personId = byUser.get(line.userId) ?? '';
  // What was applied there its sender was allowed to do there.
  const actor: Actor = { tenantId, userId: line.userId, role: 'owner', takenOver: { personId, receivedAt } };
  const answer = await applyOnce(then, actor, incomingOf(then, actor, line));
  const { outcome, problem } = answer;
  renamed.learn(there, answer);
  if (outcome === 'applied' || outcome === 'already-applied') return undefined;
  return problem?.detail ?? 'waits for something that has not come.';
}

function incomingOf(then: World, actor: Actor, line: Line<'command'>): Incoming {
  const { receivedAt } = line;
  const received = restored(line.envelope);
  if (line.device !== null) return readDevice(then, actor, { received, sentAt: line.sentAt ?? receivedAt, receivedAt });
  const { kind: _, ...rest } = received as { kind: string };
  return readDesk(then, actor, { id: line.id, kind: line.kind as CommandName, received: rest, receivedAt });
}

async function kept({ world, tenantId }: TakingOver, line: Line<'kept'>): Promise<undefined> {
  const { id, kind, userId, device } = line;
  const hash = hashOf(restored(line.envelope));
  await world.database.inTenant(tenantId, async (tx) => {
    const { count } = await tx.command.createMany({
      data: {
        tenantId,
        id,
        kind,
        deviceId: device?.id ?? null,
        deviceSeq: device?.seq ?? null,
        hash,
        envelope: json(line.envelope),
        state: line.state,
        ...(line.answer === null ? {} : { answer: json(line.answer) }),
        userId,
        happenedAt: toDate(line.happenedAt),
        sentAt: line.sentAt === null ? null : toDate(line.sentAt),
        receivedAt: toDate(line.receivedAt),
      },
      skipDuplicates: true,
    });
    if (count === 0) return;
    await tx.commandWait.createMany({ data: line.waitsFor.map((waitsFor) => ({ tenantId, commandId: id, waitsFor })) });
  });
  return undefined;
}

async function attention({ world, tenantId }: TakingOver, line: Line<'attention'>): Promise<undefined> {
  const { id, kind, reason, subjectKind, subjectId } = line;
  await world.database.inTenant(tenantId, async (tx) => {
    const known = await tx.command.count({ where: { tenantId, id: line.commandId ?? id } });
    const commandId = known === 0 ? null : line.commandId;
    await tx.attention.createMany({
      data: {
        ...{ tenantId, id, kind, commandId, reason, subjectKind, subjectId },
        problem: json(line.problem),
        openedAt: toDate(line.openedAt),
      },
      skipDuplicates: true,
    });
  });
  return undefined;
}

async function settled({ world, tenantId }: TakingOver, line: Line<'settled'>): Promise<undefined> {
  await world.database.inTenant(tenantId, (tx) =>
    tx.attention.updateMany({
      where: { tenantId, id: line.id, closedAt: null },
      data: { closedAt: toDate(line.at), closedHow: line.how },
    }),
  );
  return undefined;
}

async function timePassed({ world, tenantId }: TakingOver, line: Line<'time-passed'>): Promise<undefined> {
  const { circuit, cause, at } = line;
  const done = await world.database.inTenant(tenantId, (tx) =>
    tx.audit.count({ where: { tenantId, at: toDate(at), detail: { path: ['cause'], equals: cause } } }),
  );
  if (done === 0) await letTimePass(asOf(world, at), tenantId, { circuit, cause });
  return undefined;
}

function reminded({ world, tenantId }: TakingOver, line: Line<'reminded'>): Promise<string | undefined> {
  const { dutyId, stage, notice } = line;
  const at = toDate(line.at);
  return nightWork(asOf(world, line.at), { tenantId, action: 'duty-reminder' }, async (desk) => {
    const { tx } = desk;
    if ((await tx.duty.count({ where: { tenantId, id: dutyId } })) === 0) return 'its duty is not here.';
    const of = { tenantId, dutyId, stage, remindedAt: null };
    if (line.dueEpoch !== null)
      await tx.reminder.updateMany({ where: { ...of, dueEpoch: BigInt(line.dueEpoch) }, data: { remindedAt: at } });
    if (notice === null) return undefined;
    const { id, role, kind, body } = notice;
    const { count } = await tx.notice.createMany({
      data: { tenantId, id, role, kind, dutyId, body, at },
      skipDuplicates: true,
    });
    if (count > 0) desk.changed('notice', id, 'made');
    return undefined;
  });
}
