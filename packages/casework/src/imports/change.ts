/** What a person does with an import. Each step is guarded by the import's state, with its row locked. */
import { createHash } from 'node:crypto';
import { ImportWorks, IMPORT_WORKS, Refusal } from '@ullage/contracts';
import type { DecideImport, ImportState, MatchImport } from '@ullage/contracts';
import type { Prisma, Tx } from '@ullage/database';
import { matchFaults, refusedAtOnce } from '@ullage/intake';
import type { Actor, World } from '../office.ts';
import { notFound, toDate, Work } from '../pipeline/case.ts';
import { withRetry } from '../pipeline/retry.ts';
import { writeAudit, writeFeed } from '../pipeline/settle.ts';
import { restsOnImport } from './rests.ts';
import type { ImportGiven } from './shapes.ts';

export type RunRow = Awaited<ReturnType<Tx['importRun']['findUniqueOrThrow']>>;

/** Takes a file in; the night reads it. @throws Refusal for one that is refused at once */
export async function receiveImport(world: World, actor: Actor, given: ImportGiven): Promise<void> {
  const why = refusedAtOnce(given.content);
  if (why !== undefined)
    throw new Refusal(given.content.length > 0 && why.includes('larger') ? 'too-large' : 'not-valid', why);
  assertMay(actor, given.kind);
  const fileHash = createHash('sha256').update(given.content).digest('hex');
  await inWork({ world, actor, action: 'import-received' }, async (desk) => {
    const { tx, tenantId } = desk;
    const row = {
      tenantId,
      id: given.id,
      kind: given.kind,
      state: 'reading',
      turn: 0,
      fileName: given.name,
      fileBytes: given.content.length,
      fileHash,
      header: [],
      headerKey: '',
      matched: [],
      settings: {},
      decisions: {},
      byUserId: actor.userId,
      madeAt: toDate(desk.recordedAt),
    };
    const made = await tx.importRun.createMany({ data: row, skipDuplicates: true });
    if (made.count === 0) {
      const before = await tx.importRun.findUniqueOrThrow({ where: { tenantId_id: { tenantId, id: given.id } } });
      if (before.fileHash === fileHash && before.kind === given.kind) return;
      throw new Refusal('command-changed', 'This id was used before with another file; send it under a new id.');
    }
    await tx.importFile.create({ data: { tenantId, importId: given.id, content: new Uint8Array(given.content) } });
    await announce(desk, given.id);
  });
}

/** Says what each column holds, remembers it for files with the same headings, and has the rows checked. */
export function matchImport(world: World, actor: Actor, given: { id: string } & MatchImport): Promise<void> {
  return change(
    { world, actor, id: given.id, action: 'import-matched', from: ['read', 'checked'] },
    async (desk, run) => {
      const { tx, tenantId } = desk;
      const faults = matchFaults(run.kind as 'equipment', run.header as string[], given.matched);
      if (faults.length > 0) {
        const errors = faults.map((detail) => ({ pointer: '#/matched', detail }));
        throw new Refusal('not-valid', 'The columns are not matched yet.', { errors });
      }
      if (run.startedAt)
        throw new Refusal('not-possible', 'Import: some rows were carried out; it goes on as matched.');
      const kept = {
        matched: given.matched,
        settings: given.settings as Prisma.InputJsonObject,
        changedAt: toDate(desk.recordedAt),
      };
      const key = { tenantId, kind: run.kind, headerKey: run.headerKey };
      await tx.columnMap.upsert({
        where: { tenantId_kind_headerKey: key },
        create: { ...key, ...kept },
        update: kept,
      });
      await move(desk, run, { state: 'checking', matched: given.matched, settings: kept.settings, problem: null });
    },
  );
}

/** Hears of names that are nearly alike whether they are the same, and has the rows checked again. */
export function decideImport(world: World, actor: Actor, given: { id: string } & DecideImport): Promise<void> {
  return change({ world, actor, id: given.id, action: 'import-decided', from: ['checked'] }, async (desk, run) => {
    if (run.startedAt) throw new Refusal('not-possible', 'Import: some rows were carried out; it goes on as decided.');
    const decisions = { ...(run.decisions as Prisma.InputJsonObject), ...given.decisions };
    await move(desk, run, { state: 'checking', decisions, problem: null });
  });
}

/** Has the rows that are fine carried out. What was imported since the check is looked at again first. */
export function runImport(world: World, actor: Actor, id: string): Promise<void> {
  return change(
    { world, actor, id, action: 'import-started', from: ['checked'], already: ['running', 'done'] },
    async (desk, run) => {
      const { tx, tenantId } = desk;
      await assertAlone(tx, tenantId);
      const since = { tenantId, id: { not: id }, endedAt: { gte: run.checkedAt ?? run.madeAt } };
      if (run.startedAt === null && (await tx.importRun.count({ where: since })) > 0) {
        const problem = 'Another import ended since this one was checked: it is checked again. Then start it.';
        await move(desk, run, { state: 'checking', problem });
        return;
      }
      const fine = await tx.importRow.count({ where: { tenantId, importId: id, state: 'fine' } });
      if (fine === 0)
        throw new Refusal('not-possible', 'Import: no row would make anything; put the file right first.');
      await move(desk, run, {
        state: 'running',
        byUserId: desk.actor.userId,
        startedAt: run.startedAt ?? toDate(desk.recordedAt),
        problem: null,
      });
    },
  );
}

/** Has all of it taken back, while nothing rests on it. @throws Refusal that names what does */
export function undoImport(world: World, actor: Actor, id: string): Promise<void> {
  return change(
    { world, actor, id, action: 'import-undone', from: ['done'], already: ['undoing', 'undone'] },
    async (desk, run) => {
      const { tx, tenantId } = desk;
      await assertAlone(tx, tenantId);
      const rests = await restsOnImport(tx, tenantId, id);
      if (rests.length > 0) {
        const errors = rests.map((detail) => ({ pointer: '#', detail }));
        throw new Refusal('not-possible', 'Something rests on this import; take that back first.', { errors });
      }
      await move(desk, run, { state: 'undoing', byUserId: desk.actor.userId, problem: null });
    },
  );
}

/** A program brings nobody into the firm, by a file no more than one by one. */
function assertMay({ key }: Actor, kind: string): void {
  if (kind === 'people' && key)
    throw new Refusal('not-allowed', 'People: a key imports none; sign in and do it yourself.');
}

/** Two that run at once would each make what the other makes too. */
async function assertAlone(tx: Tx, tenantId: string): Promise<void> {
  await tx.$executeRaw`SELECT pg_advisory_xact_lock(hashtextextended(${`import|${tenantId}`}, 0))`;
  const busy = await tx.importRun.findFirst({
    where: { tenantId, state: { in: ['running', 'undoing'] } },
    select: { fileName: true },
  });
  if (busy) throw new Refusal('not-possible', 'Another import is being carried out; wait until it is done.');
}

type Person = Work & { readonly actor: Actor };
interface Step {
  readonly world: World;
  readonly actor: Actor;
  readonly id: string;
  readonly action: string;
  readonly from: readonly ImportState[];
  /** Asked for twice, it is the same: nothing is done. */
  readonly already?: readonly ImportState[];
}

async function change(step: Step, work: (desk: Person, run: RunRow) => Promise<void>): Promise<void> {
  await inWork(step, async (desk) => {
    const { tx, tenantId } = desk;
    const run = await lockRun(tx, tenantId, step.id);
    if (!run) throw notFound();
    const state = run.state as ImportState;
    assertMay(step.actor, run.kind);
    if (step.already?.includes(state)) return;
    if (!step.from.includes(state)) throw new Refusal('stale', 'The import has gone on since; look at it again.');
    await work(desk, run);
  });
}

/** The run with its row locked; undefined for one that is not there. */
export async function lockRun(tx: Tx, tenantId: string, id: string): Promise<RunRow | null> {
  await tx.$queryRaw`SELECT id FROM import_run WHERE tenant_id = ${tenantId}::uuid AND id = ${id}::uuid FOR UPDATE`;
  return tx.importRun.findUnique({ where: { tenantId_id: { tenantId, id } } });
}

/** Moves a run on: the next number, and word for the queue where the night has work with it. */
export async function move(
  desk: Work,
  run: RunRow,
  data: Prisma.ImportRunUpdateInput & { state: ImportState },
): Promise<void> {
  const { tx, tenantId } = desk;
  await tx.importRun.update({
    where: { tenantId_id: { tenantId, id: run.id } },
    data: { ...data, turn: { increment: 1 } },
  });
  desk.changed('import', run.id);
  if (IMPORT_WORKS.includes(data.state)) await announce(desk, run.id);
}

async function announce(desk: Work, importId: string): Promise<void> {
  await desk.tx.outbox.create({
    data: {
      tenantId: desk.tenantId,
      id: desk.world.newId(),
      topic: ImportWorks.topic,
      body: { importId },
      createdAt: toDate(desk.recordedAt),
      tries: 0,
    },
  });
  desk.changed('import', importId);
}

async function inWork(
  { world, actor, action }: { world: World; actor: Actor; action: string },
  work: (desk: Person) => Promise<void>,
): Promise<void> {
  const { tenantId, userId, address = null } = actor;
  await withRetry(() =>
    world.database.inTenant(tenantId, async (tx) => {
      const desk = Object.assign(new Work({ tx, world, tenantId, recordedAt: world.now() }), { actor });
      await work(desk);
      await writeAudit(desk, { action, userId, commandId: null, address });
      await writeFeed(desk);
    }),
  );
  await world.database.notify('ullage_feed', tenantId);
}
