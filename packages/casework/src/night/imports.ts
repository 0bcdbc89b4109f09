/** The night's part of an import, in stretches: each ends with the next number, so that a job that comes late does nothing. */
import { IMPORT_WORKS, Refusal, Role } from '@ullage/contracts';
import type { CommandName, ImportState, ImportStretchBody } from '@ullage/contracts';
import type { Prisma } from '@ullage/database';
import { retryable } from '@ullage/database';
import { checkRows } from '../imports/check-rows.ts';
import { lockRun, move } from '../imports/change.ts';
import type { RunRow } from '../imports/change.ts';
import { importIds } from '../imports/ids.ts';
import { readFile } from '../imports/read-file.ts';
import type { Actor, World } from '../office.ts';
import { toDate, toInstant } from '../pipeline/case.ts';
import type { Work } from '../pipeline/case.ts';
import { applyDesk } from '../pipeline/doors.ts';
import { nightWork } from './night-work.ts';

/** Commands between two looks at whether the program should end: a few seconds' worth. */
const ROWS_A_STRETCH = 100;
/** Rows between two lines to whoever watches. */
const ROWS_A_REPORT = 20;
/** Reading and checking twenty thousand rows are one transaction each. */
const LONG_MS = 120_000;

/** Does one stretch. Gives the next one, or nothing when the import waits for a person or the job came too late. */
export async function importStretch(world: World, body: ImportStretchBody): Promise<ImportStretchBody | undefined> {
  const { tenantId, importId, turn } = body;
  const run = await world.database.inTenant(tenantId, (tx) =>
    tx.importRun.findUnique({ where: { tenantId_id: { tenantId, id: importId } } }),
  );
  if (!run || run.turn !== turn) return undefined;
  switch (run.state as ImportState) {
    case 'reading':
      return inOneGo(world, run, readFile);
    case 'checking':
      return inOneGo(world, run, checkRows);
    case 'running':
      return someRows(world, run, RUN);
    case 'undoing':
      return someRows(world, run, UNDO);
    case 'unreadable':
    case 'read':
    case 'checked':
    case 'done':
    case 'undone':
      return undefined;
  }
}

/** The next stretch of an import, as it stands. */
export function nextStretch(world: World, tenantId: string, importId: string): Promise<ImportStretchBody | undefined> {
  return world.database.inTenant(tenantId, async (tx) => {
    const run = await tx.importRun.findUnique({ where: { tenantId_id: { tenantId, id: importId } } });
    const works = run !== null && IMPORT_WORKS.includes(run.state as ImportState);
    return works ? { tenantId, importId, turn: run.turn } : undefined;
  });
}

async function inOneGo(
  world: World,
  { tenantId, id, turn }: RunRow,
  work: (desk: Work, run: RunRow) => Promise<void>,
): Promise<undefined> {
  await nightWork(world, { tenantId, action: 'import-went-on', timeoutMs: LONG_MS }, async (desk) => {
    const run = await lockRun(desk.tx, tenantId, id);
    if (run?.turn === turn) await work(desk, run);
  });
}

interface RowWork {
  readonly from: 'fine' | 'done';
  readonly order: 'asc' | 'desc';
  command(run: RunRow, row: RowRow): { id: string; kind: CommandName; body: unknown };
  /** What a row becomes when its command was carried out, and when it was refused. */
  readonly done: 'done' | 'undone';
  readonly refused: 'failed' | 'kept';
  readonly end: (counts: { refused: number }) => Prisma.ImportRunUpdateInput & { state: ImportState };
}
interface RowRow {
  readonly number: number;
  readonly commandKind: string | null;
  readonly commandId: string;
  readonly body: unknown;
}

const RUN: RowWork = {
  from: 'fine',
  order: 'asc',
  command: (_run, row) => ({ id: row.commandId, kind: row.commandKind as CommandName, body: row.body }),
  done: 'done',
  refused: 'failed',
  end: () => ({ state: 'done' }),
};
/** The last row first: a customer goes after what stands at its sites. */
const UNDO: RowWork = {
  from: 'done',
  order: 'desc',
  command: (run, { number }) => ({
    id: importIds(run.id, run.madeAt)(`back|${number}`),
    kind: 'take-back-row',
    body: { importId: run.id, row: number },
  }),
  done: 'undone',
  refused: 'kept',
  end: ({ refused }) =>
    refused === 0
      ? { state: 'undone' }
      : { state: 'done', problem: `Something came to rest on ${refused} rows meanwhile: they stay as they are.` },
};

type Outcome = { readonly number: number; readonly state: string; readonly faults: Prisma.InputJsonArray };

/** Carries out some rows, each as a command of its own with an id of its own: what was carried out before is known by it. */
async function someRows(world: World, run: RunRow, work: RowWork): Promise<ImportStretchBody | undefined> {
  const { tenantId, id: importId } = run;
  const actor = await starterOf(world, run);
  if (!actor) {
    const problem = 'Whoever started it may not do this any more: somebody else has to start it again.';
    return endStretch(world, run, { state: work.from === 'fine' ? 'checked' : 'done', problem });
  }
  const rows = await world.database.inTenant(tenantId, (tx) =>
    tx.importRow.findMany({
      where: { tenantId, importId, state: work.from },
      orderBy: { number: work.order },
      take: ROWS_A_STRETCH,
      select: { number: true, commandKind: true, commandId: true, body: true },
    }),
  );
  const outcomes: Outcome[] = [];
  for (const row of rows) {
    outcomes.push(await carryOutRow(world, actor, { run, row, work }));
    if (outcomes.length === ROWS_A_REPORT) await report(world, run, outcomes.splice(0));
  }
  await report(world, run, outcomes);
  if (rows.length === ROWS_A_STRETCH) return endStretch(world, run, { state: run.state as ImportState });
  const refused = await world.database.inTenant(tenantId, (tx) =>
    tx.importRow.count({ where: { tenantId, importId, state: work.refused } }),
  );
  return endStretch(world, run, { ...work.end({ refused }), endedAt: toDate(world.now()) });
}

async function carryOutRow(
  world: World,
  actor: Actor,
  { run, row, work }: { run: RunRow; row: RowRow; work: RowWork },
): Promise<Outcome> {
  const { id, kind, body } = work.command(run, row);
  // One moment for all rows and all tries: a command that is sent again must be the same to the letter.
  const happenedAt = toInstant(run.startedAt ?? run.madeAt);
  try {
    await applyDesk(world, actor, { id, kind, received: { happenedAt, body } });
    return { number: row.number, state: work.done, faults: [] };
  } catch (error) {
    if (error instanceof Refusal) return { number: row.number, state: work.refused, faults: faultsOf(error) };
    if (retryable(error) !== 'no') throw error;
    // A fault of ours in one row must not hold up the others.
    const text = 'This row could not be carried out, and the fault is ours. Enter it by hand.';
    return { number: row.number, state: work.refused, faults: [{ column: null, text }] };
  }
}

const faultsOf = ({ message, errors }: Refusal): { column: null; text: string }[] =>
  (errors.length > 0 ? errors.map(({ detail }) => detail) : [message]).map((text) => ({ column: null, text }));

/** Whoever started it, in the role they have now; undefined when they may not any more. */
async function starterOf(world: World, run: RunRow): Promise<Actor | undefined> {
  const { tenantId, byUserId: userId } = run;
  const person = await world.database.inTenant(tenantId, (tx) =>
    tx.person.findFirst({ where: { tenantId, userId, active: true }, select: { role: true } }),
  );
  const role = Role.safeParse(person?.role);
  return role.success && (role.data === 'owner' || role.data === 'manager')
    ? { tenantId, userId, role: role.data }
    : undefined;
}

/** Writes down how rows went, and tells whoever watches. */
async function report(world: World, { tenantId, id }: RunRow, outcomes: readonly Outcome[]): Promise<void> {
  if (outcomes.length === 0) return;
  await nightWork(world, { tenantId, action: 'import-went-on' }, async (desk) => {
    await desk.tx.$executeRaw`
      UPDATE import_row SET state = one.state, faults = one.faults
      FROM jsonb_to_recordset(${JSON.stringify(outcomes)}::jsonb) AS one (number int, state text, faults jsonb)
      WHERE import_row.tenant_id = ${tenantId}::uuid AND import_row.import_id = ${id}::uuid
        AND import_row.number = one.number`;
    desk.changed('import', id);
  });
}

async function endStretch(
  world: World,
  { tenantId, id, turn }: RunRow,
  data: Prisma.ImportRunUpdateInput & { state: ImportState },
): Promise<ImportStretchBody | undefined> {
  const works = IMPORT_WORKS.includes(data.state);
  return nightWork(world, { tenantId, action: 'import-went-on' }, async (desk) => {
    const run = await lockRun(desk.tx, tenantId, id);
    if (run?.turn !== turn) return undefined;
    await move(desk, run, data);
    return works ? { tenantId, importId: id, turn: turn + 1 } : undefined;
  });
}
