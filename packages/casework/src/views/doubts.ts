/** Doubts as they are shown: what is suspected, how much at most, and the way by which it came. */
import type { DoubtView } from '@ullage/contracts';
import { taintVerdict } from '@ullage/gasbook';
import type { Prisma } from '@ullage/database';
import { taintsOfRows } from '../gas/contents.ts';
import type { DoubtRow } from '../gas/doubt-rows.ts';
import { toInstant } from '../pipeline/case.ts';
import type { Viewer } from './viewer.ts';
import { FACT_WORDS, TAINT_WORDS_LONG, wordOf } from './words.ts';

const FACT = { select: { id: true, kind: true, happenedAt: true, recordedAt: true, visitId: true } } as const;
const INCLUDE = {
  fromFact: FACT,
  viaFact: FACT,
  clearedBy: FACT,
  account: {
    select: {
      cylinder: { select: { id: true, serial: true, label: true } },
      circuit: { select: { id: true, letter: true, unit: { select: { id: true, tag: true } } } },
    },
  },
  spreadFrom: { select: { accountId: true, viaFactId: true } },
} satisfies Prisma.TaintInclude;
type Row = Prisma.TaintGetPayload<{ include: typeof INCLUDE }>;
type Step = DoubtView['path'][number];

export interface Doubts {
  readonly open: DoubtView[];
  readonly cleared: (DoubtView & { clearedByFactId: string; clearedAt: string })[];
}
interface Account {
  readonly accountId: string;
  readonly contentsGrams: number;
}

/** Doubts of some accounts that stand, cleared ones included, oldest first; in the order of the accounts. */
export async function doubtsOf(viewer: Viewer, accounts: readonly Account[]): Promise<Doubts[]> {
  const { tx, tenantId } = viewer;
  const rows = await tx.taint.findMany({
    where: { tenantId, accountId: { in: accounts.map(({ accountId }) => accountId) }, withdrawnAt: null },
    include: INCLUDE,
    orderBy: [{ createdAt: 'asc' }, { id: 'asc' }],
  });
  const known = await withSources(viewer, rows);
  const byAccount = Map.groupBy(rows, ({ accountId }) => accountId);
  return accounts.map((account) => standing(byAccount.get(account.accountId) ?? [], { ...account, known }));
}

function standing(
  rows: readonly Row[],
  { known, contentsGrams }: Account & { readonly known: ReadonlyMap<string, Row> },
): Doubts {
  const view = (row: Row): DoubtView => doubtView(row, { known, contentsGrams });
  return {
    open: rows.filter(({ clearedBy }) => clearedBy === null).map(view),
    cleared: rows.flatMap((row) =>
      row.clearedBy ? [{ ...view(row), clearedByFactId: row.clearedBy.id, clearedAt: instantOf(row.clearedBy) }] : [],
    ),
  };
}

/** The rows with those that they come from, step by step back to where each arose. */
async function withSources({ tx, tenantId }: Viewer, rows: readonly Row[]): Promise<Map<string, Row>> {
  const known = new Map(rows.map((row) => [row.id, row]));
  for (let back = rows; ;) {
    const ids = back.flatMap(({ spreadFromId }) =>
      spreadFromId === null || known.has(spreadFromId) ? [] : [spreadFromId],
    );
    if (ids.length === 0) return known;
    back = await tx.taint.findMany({ where: { tenantId, id: { in: ids } }, include: INCLUDE });
    for (const row of back) known.set(row.id, row);
  }
}

const instantOf = (fact: { happenedAt: Date | null; recordedAt: Date }): string =>
  toInstant(fact.happenedAt ?? fact.recordedAt);

type Subject = Pick<Step, 'subjectKind' | 'subjectId' | 'title' | 'unitId' | 'circuitLetter'>;
/** What an account belongs to; gas in doubt is in a cylinder or a circuit, never outside. */
function subjectOf({ cylinder, circuit }: Row['account']): Subject {
  if (circuit) {
    const { id, letter, unit } = circuit;
    const title = `${unit.tag}-${letter}`;
    return { subjectKind: 'circuit', subjectId: id, title, unitId: unit.id, circuitLetter: letter };
  }
  const title = cylinder?.label ?? cylinder?.serial ?? '';
  return { subjectKind: 'cylinder', subjectId: cylinder?.id ?? '', title, unitId: null, circuitLetter: null };
}

function stepOf(row: Row): Step {
  const fact = row.viaFact ?? row.fromFact;
  const factTitle = wordOf(FACT_WORDS, fact.kind);
  return { ...subjectOf(row.account), factId: fact.id, factTitle, at: instantOf(fact), visitId: fact.visitId };
}

function pathOf(row: Row, known: ReadonlyMap<string, Row>): Step[] {
  const path = [stepOf(row)];
  for (let at = row.spreadFromId; at !== null;) {
    const source = known.get(at);
    if (!source) break;
    path.unshift(stepOf(source));
    at = source.spreadFromId;
  }
  return path;
}

function doubtView(
  row: Row,
  { known, contentsGrams }: { known: ReadonlyMap<string, Row>; contentsGrams: number },
): DoubtView {
  const taints = taintsOfRows([{ ...row, clearedByFact: null } satisfies DoubtRow]);
  const verdict = taintVerdict({ taints, contentsGrams });
  const highGrams = row.highGrams === null ? null : Number(row.highGrams);
  const path = pathOf(row, known);
  return {
    id: row.id,
    cause: row.cause,
    title: verdict.labels.join(', '),
    text: textOf(row, { highGrams, path }),
    visitId: row.visitId,
    lowGrams: Number(row.lowGrams ?? 0),
    highGrams,
    minutes: row.minutes === null ? null : Number(row.minutes),
    blocks: verdict.use === 'blocked',
    confirmed: row.confirmedByFact !== null,
    at: instantOf(row.viaFact ?? row.fromFact),
    path,
  };
}

function textOf(row: Row, { highGrams, path }: { highGrams: number | null; path: readonly Step[] }): string {
  const bound =
    highGrams === null ? 'no bound on the air that may be in it' : `at most ${boundText(highGrams)} g of air`;
  const what = wordOf(TAINT_WORDS_LONG, row.cause);
  const source = path.at(-2);
  if (!source) return `It was ${what}: ${bound}.`;
  return `Gas came from ${source.title}, which was ${what}: ${bound}, by its share.`;
}
/** Rounded up: a bound that is rounded down is none. */
const boundText = (grams: number): string => (Math.ceil(grams * 100) / 100).toString();
