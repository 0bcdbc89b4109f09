/** Imports as they are shown. */
import type {
  ImportListView,
  ImportRowsAsked,
  ImportRowsView,
  ImportSettings,
  ImportView,
  RowState,
} from '@ullage/contracts';
import { txQuery } from '@ullage/database';
import { ASKED_ABOUT, FIELDS } from '@ullage/intake';
import * as z from 'zod';
import { notFound, toInstant } from '../pipeline/case.ts';
import type { Viewer } from '../views/viewer.ts';
import type { RunRow } from './change.ts';

type Counts = ImportView['counts'];
const NONE: Counts = {
  rows: 0,
  wrong: 0,
  decide: 0,
  skipped: 0,
  known: 0,
  fine: 0,
  done: 0,
  failed: 0,
  undone: 0,
  kept: 0,
};
const LISTED = 50;

async function countsOf({ tx, tenantId }: Viewer, ids: readonly string[]): Promise<Map<string, Counts>> {
  const groups = await tx.importRow.groupBy({
    by: ['importId', 'state'],
    where: { tenantId, importId: { in: [...ids] } },
    _count: { _all: true },
  });
  const counts = new Map<string, Counts>();
  for (const { importId, state, _count } of groups) {
    const so = counts.get(importId) ?? NONE;
    const own = state in so && state !== 'rows' ? { [state]: _count._all } : {};
    counts.set(importId, { ...so, ...own, rows: so.rows + _count._all });
  }
  return counts;
}

async function namesOf({ tx, tenantId }: Viewer, runs: readonly RunRow[]): Promise<Map<string, string>> {
  const people = await tx.person.findMany({
    where: { tenantId, userId: { in: runs.map((run) => run.byUserId) } },
    select: { userId: true, name: true },
  });
  return new Map(people.map(({ userId, name }) => [userId ?? '', name]));
}

async function summaries(viewer: Viewer, runs: readonly RunRow[]): Promise<ImportListView['items']> {
  const counts = await countsOf(
    viewer,
    runs.map(({ id }) => id),
  );
  const names = await namesOf(viewer, runs);
  return runs.map((run) => ({
    id: run.id,
    kind: run.kind as ImportView['kind'],
    state: run.state as ImportView['state'],
    fileName: run.fileName,
    by: names.get(run.byUserId) ?? '',
    madeAt: toInstant(run.madeAt),
    endedAt: run.endedAt && toInstant(run.endedAt),
    counts: counts.get(run.id) ?? NONE,
  }));
}

export async function importList(viewer: Viewer): Promise<ImportListView> {
  const { tx, tenantId } = viewer;
  const runs = await tx.importRun.findMany({
    where: { tenantId },
    orderBy: [{ madeAt: 'desc' }, { id: 'desc' }],
    take: LISTED,
  });
  return { items: await summaries(viewer, runs) };
}

const EXAMPLES = 3;
export async function importView(viewer: Viewer, id: string): Promise<ImportView> {
  const { tx, tenantId } = viewer;
  const run = await tx.importRun.findUnique({ where: { tenantId_id: { tenantId, id } } });
  if (!run) throw notFound();
  const [summary] = await summaries(viewer, [run]);
  if (!summary) throw notFound();
  const first = await tx.importRow.findMany({
    where: { tenantId, importId: id },
    orderBy: { number: 'asc' },
    take: EXAMPLES,
    select: { cells: true },
  });
  const matched = run.matched as (string | null)[];
  const key = { tenantId, kind: run.kind, headerKey: run.headerKey };
  const map = await tx.columnMap.findUnique({ where: { tenantId_kind_headerKey: key }, select: { changedAt: true } });
  return {
    ...summary,
    turn: run.turn,
    problem: run.problem,
    columns: (run.header as string[]).map((heading, column) => ({
      heading,
      examples: first.map((row) => (row.cells as string[])[column] ?? '').filter((cell) => cell !== ''),
      field: matched[column] ?? null,
    })),
    fields: FIELDS[summary.kind].map(({ id: field, label, hint, required }) => ({
      id: field,
      label,
      hint,
      required: required === true,
    })),
    settings: settingsOf(viewer, run),
    remembered: map !== null && run.state === 'read',
    fileBytes: run.fileBytes,
    asks: await asksOf(viewer, id),
  };
}

const Ask = z.object({
  key: z.string(),
  what: z.enum(ASKED_ABOUT),
  name: z.string(),
  likes: z.array(z.object({ id: z.string(), name: z.string() })),
  rows: z.coerce.number(),
});
const ASKS = {
  text: `
    SELECT ask->>'key' AS key, ask->>'what' AS what, min(ask->>'name') AS name, (array_agg(ask->'likes'))[1] AS likes,
      count(*) AS rows
    FROM import_row, jsonb_array_elements(asks) AS ask
    WHERE tenant_id = $1::uuid AND import_id = $2::uuid AND state = 'decide'
    GROUP BY ask->>'key', ask->>'what' ORDER BY count(*) DESC, min(number) LIMIT 100`,
  row: Ask,
};
/** Each question once, whatever the number of rows that wait for it. */
const asksOf = ({ tx, tenantId }: Viewer, id: string): Promise<ImportView['asks']> => txQuery(tx, ASKS, [tenantId, id]);

const UNIT_OF_TENANT: Readonly<Record<string, ImportSettings['massUnit']>> = { kg: 'kg', g: 'g', oz: 'oz' };
/** What is taken for granted until somebody says otherwise. */
export const defaultSettings = (tenant: { timeZone: string; massUnit: string; locale: string }): ImportSettings => ({
  timeZone: tenant.timeZone,
  elevationM: null,
  use: null,
  method: null,
  massUnit: UNIT_OF_TENANT[tenant.massUnit] ?? 'lb',
  days: tenant.locale === 'en-US' ? 'month-first' : 'day-first',
  decimal: 'point',
  by: 'us',
});
const settingsOf = ({ tenant }: Viewer, run: RunRow): ImportSettings => ({
  ...defaultSettings(tenant),
  ...(run.settings as Partial<ImportSettings>),
});

const PAGE = 100;
export async function importRows(viewer: Viewer, asked: { id: string } & ImportRowsAsked): Promise<ImportRowsView> {
  const { tx, tenantId } = viewer;
  const { id: importId, show, after } = asked;
  const known = await tx.importRun.count({ where: { tenantId, id: importId } });
  if (known === 0) throw notFound();
  const rows = await tx.importRow.findMany({
    where: {
      tenantId,
      importId,
      ...(show === 'all' ? {} : { state: show }),
      ...(after === undefined ? {} : { number: { gt: after } }),
    },
    orderBy: { number: 'asc' },
    take: PAGE + 1,
  });
  const shown = rows.slice(0, PAGE);
  return {
    items: shown.map((row) => ({
      number: row.number,
      cells: row.cells as string[],
      state: row.state as RowState,
      faults: row.faults as ImportRowsView['items'][number]['faults'],
      makes: row.makes as string[],
    })),
    next: rows.length > PAGE ? (shown.at(-1)?.number ?? null) : null,
  };
}
