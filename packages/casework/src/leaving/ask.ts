/** What an owner asks for: a file of everything, or to take such a file over. */
import { PARCEL_MAX_BYTES, PARCEL_PART_BYTES, Refusal } from '@ullage/contracts';
import type { LeavingView, NameParcel, ParcelArrival, ParcelView } from '@ullage/contracts';
import { isUniqueViolation } from '@ullage/database';
import type { Tx } from '@ullage/database';
import type { Actor, World } from '../office.ts';
import { notFound, toDate, toInstant } from '../pipeline/case.ts';
import type { Viewer } from '../views/viewer.ts';
import { partOf } from './parts.ts';
import type { ExportFile } from './shapes.ts';

const DAY_MS = 86_400_000;
/** Each lies in the database until it expires. */
const STANDING_MAX = 3;
const SHOWN = 10;
const partsIn = (bytes: number): number => Math.ceil(bytes / PARCEL_PART_BYTES);

async function askerOf(tx: Tx, { tenantId, userId }: Actor): Promise<string> {
  const person = await tx.person.findFirst({ where: { tenantId, userId }, select: { id: true } });
  if (!person) throw new Refusal('not-allowed', 'You do not belong to this contractor any more.');
  return person.id;
}
async function audited(world: World, actor: Actor, of: { tx: Tx; action: string; id: string }): Promise<void> {
  const { tenantId, userId, address = null } = actor;
  const at = toDate(world.now());
  const of1 = { recordKind: 'parcel', recordId: of.id, action: of.action, commandId: null };
  await of.tx.audit.create({ data: { tenantId, id: world.newId(), at, userId, address, detail: {}, ...of1 } });
}

/** Has a file made of everything. @throws Refusal while one is being made, or when three lie ready */
export async function askExport(world: World, actor: Actor): Promise<{ id: string }> {
  const { tenantId } = actor;
  const id = world.newId();
  const now = toDate(world.now());
  await world.database
    .inTenant(tenantId, async (tx) => {
      const askedBy = await askerOf(tx, actor);
      const standing = await tx.parcel.count({
        where: { tenantId, kind: 'export', state: 'done', expiresAt: { gt: now } },
      });
      if (standing >= STANDING_MAX)
        throw new Refusal('not-possible', 'Three files lie ready: download one, or wait until the oldest expires.');
      const counts = { tries: 0, done: 0, total: 0 };
      await tx.parcel.create({
        data: { tenantId, id, kind: 'export', askedBy, askedAt: now, state: 'waiting', nextAt: now, ...counts },
      });
      await audited(world, actor, { tx, action: 'ask-export', id });
    })
    .catch((error: unknown) => {
      if (isUniqueViolation(error)) throw new Refusal('not-possible', 'A file is being made already; wait for it.');
      throw error;
    });
  return { id };
}

/** The file, part by part as it is read. @throws Refusal not-found */
export async function exportFile(world: World, actor: Actor, id: string): Promise<ExportFile> {
  const { tenantId } = actor;
  const row = await world.database.inTenant(tenantId, async (tx) => {
    const found = await tx.parcel.findUnique({ where: { tenantId_id: { tenantId, id } } });
    if (!found || found.kind !== 'export' || found.expiresAt === null || found.bytes === null) throw notFound();
    await audited(world, actor, { tx, action: 'download-export', id });
    return { bytes: found.bytes, day: toInstant(found.askedAt).slice(0, 10) };
  });
  async function* content(): AsyncGenerator<Uint8Array> {
    for (let number = 0; number < partsIn(row.bytes); number++) yield partOf(world, { tenantId, id }, number);
  }
  return { bytes: row.bytes, name: `ullage-${row.day}.zip`, content: content() };
}

/** Nothing was done here yet but to choose units: only then can a file be told from its beginning. */
async function isFresh(tx: Tx, tenantId: string): Promise<boolean> {
  const row = await tx.command.findFirst({
    where: { tenantId, kind: { not: 'change-settings' } },
    select: { id: true },
  });
  return row === null;
}
const NOT_FRESH = 'There is work here already: take the file over in a new firm.';

/** Says how large a file is. Said again it answers what is missing still; another one takes its place. */
export function nameTakeOver(world: World, actor: Actor, { bytes, mark }: NameParcel): Promise<ParcelArrival> {
  if (bytes > PARCEL_MAX_BYTES) throw new Refusal('too-large', 'File: larger than 2 GB; restore a backup instead.');
  const { tenantId } = actor;
  const now = toDate(world.now());
  return world.database.inTenant(tenantId, async (tx) => {
    await tx.$queryRaw`SELECT id FROM tenant WHERE id = ${tenantId}::uuid FOR UPDATE`;
    if (!(await isFresh(tx, tenantId))) throw new Refusal('not-possible', NOT_FRESH);
    const askedBy = await askerOf(tx, actor);
    const there = await tx.parcel.findMany({ where: { tenantId, kind: 'take-over', state: 'arriving' } });
    const same = there.find((row) => row.bytes === bytes && row.digest === mark);
    for (const { id } of there.filter((row) => row !== same)) {
      await tx.parcel.updateMany({ where: { tenantId, id }, data: { state: 'failed', endedAt: now, expiresAt: null } });
      await tx.parcelPart.deleteMany({ where: { tenantId, parcelId: id } });
    }
    if (same) return arrivalOf(tx, { tenantId, id: same.id, bytes });
    const id = world.newId();
    const counts = { tries: 0, done: 0, total: 0 };
    const times = { askedAt: now, nextAt: now, expiresAt: new Date(now.getTime() + DAY_MS) };
    await tx.parcel.create({
      data: { tenantId, id, kind: 'take-over', askedBy, state: 'arriving', bytes, digest: mark, ...times, ...counts },
    });
    return arrivalOf(tx, { tenantId, id, bytes });
  });
}

async function arrivalOf(tx: Tx, of: { tenantId: string; id: string; bytes: number }): Promise<ParcelArrival> {
  const { tenantId, id, bytes } = of;
  const rows = await tx.parcelPart.findMany({ where: { tenantId, parcelId: id }, select: { number: true } });
  const here = new Set(rows.map(({ number }) => number));
  const all = Array.from({ length: partsIn(bytes) }, (_, number) => number);
  return { id, partBytes: PARCEL_PART_BYTES, missing: all.filter((number) => !here.has(number)) };
}

async function arriving(tx: Tx, tenantId: string, id: string): Promise<{ bytes: number }> {
  const row = await tx.parcel.findUnique({ where: { tenantId_id: { tenantId, id } } });
  if (row?.kind !== 'take-over' || row.state !== 'arriving' || row.bytes === null) throw notFound();
  return { bytes: row.bytes };
}

/** Takes one part; once more changes nothing. @throws Refusal not-found, `not-valid` for a part of the wrong size */
export function receiveParcelPart(
  world: World,
  actor: Actor,
  given: { id: string; number: number; content: Uint8Array },
): Promise<void> {
  const { tenantId } = actor;
  const { id, number, content } = given;
  return world.database.inTenant(tenantId, async (tx) => {
    const { bytes } = await arriving(tx, tenantId, id);
    const due = Math.min(PARCEL_PART_BYTES, bytes - number * PARCEL_PART_BYTES);
    if (due !== content.length) throw new Refusal('not-valid', `Part ${number}: has the wrong size; send it again.`);
    const row = { tenantId, parcelId: id, number, content: new Uint8Array(content) };
    await tx.parcelPart.createMany({ data: [row], skipDuplicates: true });
  });
}

/**
 * Begins to take the file over. From here on nobody else writes anything of this contractor: whoever is in the middle of a
 * command holds a share of the contractor's row, so that this waits for them and then sees what they did.
 * @throws Refusal where there is work already, while another is taken over, or before all parts are here
 */
export function beginTakeOver(world: World, actor: Actor, id: string): Promise<void> {
  const { tenantId } = actor;
  return world.database.inTenant(tenantId, async (tx) => {
    await tx.$queryRaw`SELECT id FROM tenant WHERE id = ${tenantId}::uuid FOR UPDATE`;
    const { bytes } = await arriving(tx, tenantId, id);
    const tenant = await tx.tenant.findUniqueOrThrow({ where: { id: tenantId }, select: { takingOver: true } });
    if (tenant.takingOver) throw new Refusal('not-possible', 'A file is being taken over already; wait for it.');
    if (!(await isFresh(tx, tenantId))) throw new Refusal('not-possible', NOT_FRESH);
    const { missing } = await arrivalOf(tx, { tenantId, id, bytes });
    if (missing.length > 0) throw new Refusal('not-possible', 'File: is not here whole; send what is missing.');
    const now = toDate(world.now());
    const data = { state: 'waiting', nextAt: now, expiresAt: null };
    await tx.parcel.updateMany({ where: { tenantId, id, state: 'arriving' }, data });
    await tx.tenant.update({ where: { id: tenantId }, data: { takingOver: true } });
    await audited(world, actor, { tx, action: 'take-over', id });
  });
}

const parcelsOf = (tx: Tx, tenantId: string, of: { kind: string; take: number }) =>
  tx.parcel.findMany({
    where: { tenantId, kind: of.kind },
    include: { asker: { select: { name: true } } },
    orderBy: [{ askedAt: 'desc' }, { id: 'desc' }],
    take: of.take,
  });
type Row = Awaited<ReturnType<typeof parcelsOf>>[number];
const asView = (row: Row): ParcelView => ({
  id: row.id,
  askedBy: row.asker.name,
  askedAt: toInstant(row.askedAt),
  state: row.state as ParcelView['state'],
  step: row.step,
  done: row.done,
  total: row.total,
  bytes: row.bytes,
  hash: row.digest,
  endedAt: row.endedAt && toInstant(row.endedAt),
  expiresAt: row.expiresAt && toInstant(row.expiresAt),
  found: (row.found ?? []) as ParcelView['found'],
  from: row.manifest as ParcelView['from'],
});

export async function leavingView({ tx, tenantId }: Viewer): Promise<LeavingView> {
  const exports = await parcelsOf(tx, tenantId, { kind: 'export', take: SHOWN });
  const [last] = await parcelsOf(tx, tenantId, { kind: 'take-over', take: 1 });
  return {
    exports: exports.map(asView),
    takeOver: last === undefined ? null : asView(last),
    isFresh: await isFresh(tx, tenantId),
    partBytes: PARCEL_PART_BYTES,
    maxBytes: PARCEL_MAX_BYTES,
  };
}
