/** What bad gas has come to: followed through transfers, charges and recoveries as the books have them now. */
import type { RecallStepView } from '@ullage/contracts';
import { reachedBy, wayTo } from '@ullage/gasbook';
import type { Hop } from '@ullage/gasbook';
import { txQuery } from '@ullage/database';
import type { Statement } from '@ullage/database';
import type { Instant } from '@ullage/units';
import * as z from 'zod';
import { cylinderAccount } from '../gas/accounts.ts';
import { toInstant } from '../pipeline/case.ts';
import { FACT_WORDS, wordOf } from '../views/words.ts';
import type { Records } from './checks.ts';
import { BEGINNING } from './touched.ts';
import type { Touched } from './touched.ts';

const Row = z.object({
  factId: z.string(),
  kind: z.enum(['recovery', 'transfer', 'charge']),
  visitId: z.string().nullable(),
  happenedAt: z.date(),
  recordedAt: z.date(),
  grams: z.int(),
  fromId: z.string(),
  fromTitle: z.string(),
  toId: z.string(),
  toTitle: z.string(),
  toCylinder: z.string().nullable(),
  toCircuit: z.string().nullable(),
});
type HopRow = z.infer<typeof Row>;
/**
 * What went on from an account and from all that it reached since an instant, whatever the order: the counting house
 * decides which of it was in time. $1 the contractor, $2 the account, $3 the instant.
 */
const HOPS: Statement<HopRow> = {
  text: `
    WITH RECURSIVE reached (id) AS (
      SELECT $2::uuid
      UNION
      SELECT a.id FROM reached
      JOIN movement m ON m.tenant_id = $1::uuid AND m.from_id = reached.id AND m.happened_at >= $3::timestamptz
        AND m.derived_cause IS NULL AND m.corrects_id IS NULL
      JOIN gas_account a ON a.tenant_id = m.tenant_id AND a.id = m.to_id AND a.kind IN ('cylinder', 'circuit')
    ), named AS (
      SELECT a.id, a.cylinder_id, a.circuit_id, coalesce(y.label, y.serial, u.tag || '-' || c.letter, '') AS title
      FROM gas_account a
      LEFT JOIN cylinder y ON y.tenant_id = a.tenant_id AND y.id = a.cylinder_id
      LEFT JOIN circuit c ON c.tenant_id = a.tenant_id AND c.id = a.circuit_id
      LEFT JOIN unit u ON u.tenant_id = c.tenant_id AND u.id = c.unit_id
      WHERE a.tenant_id = $1::uuid AND a.id IN (SELECT id FROM reached)
    )
    SELECT m.fact_id AS "factId", f.kind, f.visit_id AS "visitId", m.happened_at AS "happenedAt",
      f.recorded_at AS "recordedAt", sum(m.grams)::int AS grams, m.from_id AS "fromId", s.title AS "fromTitle",
      m.to_id AS "toId", t.title AS "toTitle", t.cylinder_id AS "toCylinder", t.circuit_id AS "toCircuit"
    FROM movement m
    JOIN named s ON s.id = m.from_id
    JOIN named t ON t.id = m.to_id
    JOIN fact f ON f.tenant_id = m.tenant_id AND f.id = m.fact_id AND f.kind IN ('recovery', 'transfer', 'charge')
    WHERE m.tenant_id = $1::uuid AND m.happened_at >= $3::timestamptz AND m.derived_cause IS NULL AND m.corrects_id IS NULL
      AND NOT EXISTS (SELECT 1 FROM movement undone WHERE undone.tenant_id = m.tenant_id AND undone.corrects_id = m.id)
    -- One act may draw from several holdings of a cylinder.
    GROUP BY m.fact_id, f.kind, f.visit_id, m.happened_at, f.recorded_at, m.from_id, s.title, m.to_id, t.title,
      t.cylinder_id, t.circuit_id`,
  row: Row,
};

interface NamedHop extends Hop {
  readonly row: HopRow;
}
const hopOf = (row: HopRow): NamedHop => ({
  factId: row.factId,
  kind: row.kind,
  from: row.fromId,
  to: row.toId,
  grams: row.grams,
  happenedAt: toInstant(row.happenedAt),
  row,
});
const stepOf = ({ row, grams, happenedAt: at }: NamedHop): RecallStepView => ({
  from: row.fromTitle,
  to: row.toTitle,
  by: wordOf(FACT_WORDS, row.kind),
  at,
  grams,
  visitId: row.visitId,
});

/** The cylinder itself, and every cylinder and circuit that its gas came to. */
export async function touchedByGas(
  records: Records,
  { cylinderId, since, openedAt }: { cylinderId: string; since: Instant | null; openedAt: Instant },
): Promise<Touched[]> {
  const account = await cylinderAccount(records, cylinderId);
  const from = since ?? BEGINNING;
  const hops = (await txQuery(records.tx, HOPS, [records.tenantId, account, from])).map(hopOf);
  const named = new Map(hops.map((hop) => [hop.factId, hop]));
  const steps = (all: readonly Hop[]): RecallStepView[] =>
    all.flatMap(({ factId }) => {
      const hop = named.get(factId);
      return hop ? [stepOf(hop)] : [];
    });
  const reached = reachedBy({ account, since: from }, hops);
  const source: Touched = {
    kind: 'cylinder',
    id: cylinderId,
    at: since ?? reached[0]?.arrivals[0].happenedAt ?? openedAt,
    grams: null,
    way: [],
    more: [],
    recordedAt: new Date(0),
  };
  return [
    source,
    ...reached.flatMap(({ account: to, arrivals, grams }): Touched[] => {
      const rows = arrivals.flatMap(({ factId }) => named.get(factId)?.row ?? []);
      const [first] = rows;
      const id = first?.toCylinder ?? first?.toCircuit;
      if (!first || !id) return [];
      return [
        {
          kind: first.toCylinder === null ? 'circuit' : 'cylinder',
          id,
          at: toInstant(first.happenedAt),
          grams,
          way: steps(wayTo(to, reached)),
          more: steps(arrivals.slice(1)),
          recordedAt: rows.reduce((last, row) => (row.recordedAt > last ? row.recordedAt : last), first.recordedAt),
        },
      ];
    }),
  ];
}
