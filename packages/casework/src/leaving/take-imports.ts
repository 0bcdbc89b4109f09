import type { HistoryLine } from '@ullage/contracts';
import type { Prisma } from '@ullage/database';
import type { World } from '../office.ts';
import { toDate } from '../pipeline/case.ts';

type Line<What extends HistoryLine['what']> = Extract<HistoryLine, { what: What }>;
interface Here {
  readonly world: World;
  readonly tenantId: string;
}
const json = (value: unknown): Prisma.InputJsonValue => value as Prisma.InputJsonValue;
const dateOrNull = (at: string | null): Date | null => (at === null ? null : toDate(at));

/** A file of rows, before what it made: the commands that take a row back look for it here. */
export async function importRun({ world, tenantId }: Here, line: Line<'import'>): Promise<undefined> {
  const { what: _, checkedAt, startedAt, madeAt, header, matched, settings, decisions, ...rest } = line;
  const data = {
    ...rest,
    ...{ tenantId, state: 'done', turn: 0, header: json(header), matched: json(matched) },
    ...{ settings: json(settings), decisions: json(decisions) },
    ...{ madeAt: toDate(madeAt), checkedAt: dateOrNull(checkedAt), startedAt: dateOrNull(startedAt) },
  };
  await world.database.inTenant(tenantId, (tx) => tx.importRun.createMany({ data, skipDuplicates: true }));
  return undefined;
}

export async function importRow({ world, tenantId }: Here, line: Line<'import-row'>): Promise<undefined> {
  const { what: _, cells, makes, body, ...rest } = line;
  const data = { ...rest, tenantId, cells: json(cells), makes: json(makes), faults: [], asks: [] };
  const said = body === null || body === undefined ? {} : { body: json(body) };
  await world.database.inTenant(tenantId, (tx) =>
    tx.importRow.createMany({ data: { ...data, ...said }, skipDuplicates: true }),
  );
  return undefined;
}

export async function importStands({ world, tenantId }: Here, line: Line<'import-stands'>): Promise<undefined> {
  const { id, state, endedAt } = line;
  await world.database.inTenant(tenantId, (tx) =>
    tx.importRun.updateMany({ where: { tenantId, id }, data: { state, endedAt: dateOrNull(endedAt) } }),
  );
  return undefined;
}
