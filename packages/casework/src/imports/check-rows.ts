import { editionOn, REFRIGERANTS } from '@ullage/rulebook';
import { judgeRows } from '@ullage/intake';
import type { Ground, Judgement, SheetKind } from '@ullage/intake';
import type { ImportSettings } from '@ullage/contracts';
import { toDate } from '../pipeline/case.ts';
import type { Work } from '../pipeline/case.ts';
import { move } from './change.ts';
import type { RunRow } from './change.ts';
import { importIds } from './ids.ts';
import { knownTo, ownNames } from './known.ts';

/** The dry run: what each row would make, or what is wrong with it. Nothing but the rows of the import is written. */
export async function checkRows(desk: Work, run: RunRow): Promise<void> {
  const { tx, tenantId } = desk;
  const rows = await tx.importRow.findMany({
    where: { tenantId, importId: run.id },
    orderBy: { number: 'asc' },
    select: { number: true, cells: true },
  });
  const judgements = judgeRows(
    {
      kind: run.kind as SheetKind,
      matched: run.matched as (string | null)[],
      rows: rows.map(({ number, cells }) => ({ number, cells: cells as string[] })),
    },
    await groundOf(desk, run),
  );
  await writeJudgements(desk, run, judgements);
  await move(desk, run, { state: 'checked', checkedAt: toDate(desk.recordedAt) });
}

async function groundOf(desk: Work, run: RunRow): Promise<Ground> {
  const { tx, tenantId, world } = desk;
  const settings = run.settings as ImportSettings;
  const today = world.calendar.dayOf(desk.recordedAt, settings.timeZone);
  return {
    known: await knownTo(tx, tenantId),
    settings,
    today,
    decisions: run.decisions as unknown as Ground['decisions'],
    refrigerants: Object.keys(REFRIGERANTS),
    ours: await ownNames(tx, tenantId),
    firstRate: firstRateOn(today),
    idFor: importIds(run.id, run.madeAt),
  };
}

/** What both books put in place of days that nobody knows. */
function firstRateOn(day: string): Ground['firstRate'] {
  const edition = editionOn('us-hfc', day) ?? editionOn('us-ods', day);
  if (!edition) throw new RangeError(`no rulebook was in force on ${day}`);
  return { days: edition.longestIntervalDays, clause: edition.clauses.leakRate };
}

function columnsOf({ number, state, faults, makes, asks, plan }: Judgement) {
  const said = { number, state, faults, makes, asks };
  if (!plan) return said;
  const made = { ...plan.made, touches: plan.onCircuit };
  return { ...said, ...made, kind: plan.kind, body: plan.body };
}

const AT_ONCE = 500;
/** Set by set: twenty thousand single updates would take as long as the run itself. */
async function writeJudgements(desk: Work, run: RunRow, all: readonly Judgement[]): Promise<void> {
  for (let at = 0; at < all.length; at += AT_ONCE) {
    const rows = all.slice(at, at + AT_ONCE).map(columnsOf);
    await desk.tx.$executeRaw`
      UPDATE import_row SET state = one.state, faults = one.faults, makes = one.makes, asks = one.asks, command_kind = one.kind,
        body = CASE WHEN one.kind IS NULL THEN NULL ELSE one.body END,
        made_customer_id = one.customer, made_site_id = one.site, made_unit_id = one.unit,
        made_circuit_id = one.circuit, made_cylinder_id = one.cylinder, made_person_id = one.person,
        on_circuit_id = one.touches
      FROM jsonb_to_recordset(${JSON.stringify(rows)}::jsonb) AS one (number int, state text, faults jsonb, makes jsonb, asks jsonb,
        kind text, body jsonb, customer uuid, site uuid, unit uuid, circuit uuid, cylinder uuid, person uuid, touches uuid)
      WHERE import_row.tenant_id = ${desk.tenantId}::uuid AND import_row.import_id = ${run.id}::uuid
        AND import_row.number = one.number`;
  }
}
