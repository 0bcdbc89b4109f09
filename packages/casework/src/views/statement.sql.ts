import type { Statement } from '@ullage/database';
import * as z from 'zod';

const Row = z.object({
  id: z.string(),
  refrigerant: z.string(),
  happenedAt: z.date(),
  recordedAt: z.date(),
  /** Signed: below zero it left the account. */
  grams: z.number(),
  balance: z.coerce.number(),
  otherId: z.string(),
  owner: z.string(),
  state: z.string(),
  cause: z.string().nullable(),
  correctsId: z.string().nullable(),
  correctedById: z.string().nullable(),
  factId: z.string().nullable(),
});
export type StatementRow = z.output<typeof Row>;

/**
 * At one instant the opening comes first and what covers a withdrawal before it: both are worked out after the fact that
 * shows them, and without them the account would seem to hold less than nothing. What else follows comes after what it
 * follows from, which may have been posted anew since.
 */
const RANK = `(CASE WHEN m.derived_cause IS NULL THEN 2 WHEN m.derived_cause LIKE 'opening-%' THEN 0
  WHEN m.derived_cause LIKE '%-more-than-booked' THEN 1 ELSE 3 END)`;
const CURSOR = '($4::timestamptz, $5::int, $6::timestamptz, $7::int, $8::uuid)';
const BEFORE = 'happened_at DESC, rank DESC, recorded_at DESC, seq DESC, id DESC';
const PLACE = `(m.happened_at, ${RANK}, m.recorded_at, m.seq, m.id)`;

/** One side of the account: an index reads its newest lines, however long the account's past is. */
const side = (own: 'to' | 'from', sign: '' | '-'): string => `
    (SELECT m.id, m.refrigerant, m.happened_at, ${RANK} AS rank, m.recorded_at, m.seq, ${sign}m.grams AS grams,
      m.${own === 'to' ? 'from' : 'to'}_id AS other_id, m.${own}_owner AS owner, m.${own}_state AS state,
      m.derived_cause, m.corrects_id, m.fact_id
    FROM movement m
    WHERE m.tenant_id = $1::uuid AND m.${own}_id = $2::uuid AND ($3::text IS NULL OR m.refrigerant = $3::text)
      AND m.happened_at <= $4::timestamptz AND ${PLACE} < ${CURSOR}
    ORDER BY ${BEFORE}
    LIMIT $9::int)`;

/**
 * $1 the contractor, $2 the account, $3 the gas or null for all, $4 to $8 the line before which to read, $9 how many:
 * newest first, each with what the account held after it. That is counted back from the balance the books keep, so a
 * page costs its own lines and the newer ones, never the whole past.
 */
export const STATEMENT: Statement<StatementRow> = {
  text: `
  WITH page AS MATERIALIZED (
    SELECT id, refrigerant, happened_at, rank, recorded_at, seq, grams, other_id, owner, state, derived_cause, corrects_id, fact_id
    FROM (${side('to', '')}
    UNION ALL${side('from', '-')}
    ) AS both_sides
    ORDER BY ${BEFORE}
    LIMIT $9::int
  ), closing AS (
    SELECT coalesce((
        SELECT sum(b.grams) FROM balance b
        WHERE b.tenant_id = $1::uuid AND b.account_id = $2::uuid AND ($3::text IS NULL OR b.refrigerant = $3::text)), 0)
      - coalesce((
        SELECT sum(CASE WHEN m.to_id = $2::uuid THEN m.grams ELSE -m.grams END) FROM movement m
        WHERE m.tenant_id = $1::uuid AND (m.to_id = $2::uuid OR m.from_id = $2::uuid)
          AND ($3::text IS NULL OR m.refrigerant = $3::text)
          AND m.happened_at >= $4::timestamptz AND ${PLACE} >= ${CURSOR}), 0)
      AS grams
  )
  SELECT page.id, page.refrigerant, page.happened_at AS "happenedAt", page.recorded_at AS "recordedAt", page.grams,
    (closing.grams - coalesce(sum(page.grams) OVER (
      ORDER BY page.happened_at DESC, page.rank DESC, page.recorded_at DESC, page.seq DESC, page.id DESC
      ROWS BETWEEN UNBOUNDED PRECEDING AND 1 PRECEDING), 0))::bigint AS balance,
    page.other_id AS "otherId", page.owner, page.state, page.derived_cause AS cause, page.corrects_id AS "correctsId",
    undone.id AS "correctedById", page.fact_id AS "factId"
  FROM page CROSS JOIN closing
  LEFT JOIN movement undone ON undone.tenant_id = $1::uuid AND undone.corrects_id = page.id
  ORDER BY page.happened_at DESC, page.rank DESC, page.recorded_at DESC, page.seq DESC, page.id DESC`,
  row: Row,
};

const Cursor = z.object({ happenedAt: z.date(), rank: z.int(), recordedAt: z.date(), seq: z.int(), id: z.string() });
/** $1 the contractor, $2 the account, $3 a line of it: its place among the lines. */
export const STATEMENT_CURSOR: Statement<z.output<typeof Cursor>> = {
  text: `
    SELECT m.happened_at AS "happenedAt", ${RANK} AS rank, m.recorded_at AS "recordedAt", m.seq, m.id FROM movement m
    WHERE m.tenant_id = $1::uuid AND m.id = $3::uuid AND (m.from_id = $2::uuid OR m.to_id = $2::uuid)`,
  row: Cursor,
};
