/** What the database itself can tell of one contractor's books. $1 is the contractor; each row is one difference. */
import type { Statement } from '@ullage/database';
import * as z from 'zod';

const Difference = z.object({ text: z.string() });
export type Difference = z.output<typeof Difference>;
const Count = z.object({ count: z.coerce.number() });

/** A check in two statements: what differs, and how much was looked at. */
export interface SqlCheck {
  readonly wrong: Statement<Difference>;
  readonly looked: Statement<z.output<typeof Count>>;
}
const check = (looked: string, wrong: string): SqlCheck => ({
  wrong: { text: wrong, row: Difference },
  looked: { text: looked, row: Count },
});

export const SUMS_TO_ZERO = check(
  'SELECT count(DISTINCT refrigerant) FROM balance WHERE tenant_id = $1::uuid',
  `SELECT format('%s: the balances sum to %s g', refrigerant, sum(grams)) AS text FROM balance
   WHERE tenant_id = $1::uuid GROUP BY refrigerant HAVING sum(grams) <> 0 ORDER BY refrigerant`,
);

/** Both ways round: a balance that no movement explains, and a movement that no balance shows. */
export const BALANCE_IS_REPLAY = check(
  'SELECT count(*) FROM balance WHERE tenant_id = $1::uuid',
  `WITH sides AS (
     SELECT to_id AS account_id, refrigerant, to_owner AS owner, to_state AS state, grams::bigint FROM movement WHERE tenant_id = $1::uuid
     UNION ALL
     SELECT from_id, refrigerant, from_owner, from_state, -grams::bigint FROM movement WHERE tenant_id = $1::uuid
   ), replayed AS (
     SELECT account_id, refrigerant, owner, state, sum(grams) AS grams FROM sides GROUP BY account_id, refrigerant, owner, state
   ), kept AS (
     SELECT account_id, refrigerant, owner, state, kind, grams FROM balance WHERE tenant_id = $1::uuid
   )
   SELECT format('account %s, %s %s of %s: the balance says %s g, its movements %s g', account_id, refrigerant, state, owner,
     coalesce(kept.grams, 0), coalesce(replayed.grams, 0)) AS text
   FROM kept FULL JOIN replayed USING (account_id, refrigerant, owner, state)
   WHERE coalesce(kept.grams, 0) <> coalesce(replayed.grams, 0)
   UNION ALL
   SELECT format('account %s is a %s and its balance is kept as a %s', account.id, account.kind, kept.kind)
   FROM kept JOIN gas_account account ON account.tenant_id = $1::uuid AND account.id = kept.account_id
   WHERE account.kind <> kept.kind`,
);

export const NO_CYLINDER_BELOW_ZERO = check(
  `SELECT count(*) FROM gas_account WHERE tenant_id = $1::uuid AND kind = 'cylinder'`,
  `SELECT format('cylinder %s: %s g of %s %s', account.cylinder_id, balance.grams, balance.refrigerant, balance.state) AS text
   FROM balance JOIN gas_account account ON account.tenant_id = balance.tenant_id AND account.id = balance.account_id
   WHERE balance.tenant_id = $1::uuid AND account.kind = 'cylinder' AND balance.grams < 0`,
);

/** Numbers run on from one epoch into the next: first to last, each once, and the counter stands at the last. */
export const FEED_HAS_NO_GAP = check(
  'SELECT count(*) FROM feed WHERE tenant_id = $1::uuid',
  `WITH numbered AS (
     SELECT epoch, number, lag(number, 1, 0::bigint) OVER (ORDER BY number, epoch) AS before,
       lag(epoch, 1, 0) OVER (ORDER BY number, epoch) AS epoch_before
     FROM feed WHERE tenant_id = $1::uuid
   ), counter AS (
     SELECT counter.epoch, counter.number, coalesce((SELECT max(number) FROM numbered), 0) AS last,
       coalesce((SELECT max(epoch) FROM numbered), 0) AS last_epoch
     FROM (SELECT 1) one LEFT JOIN feed_counter counter ON counter.tenant_id = $1::uuid
   )
   SELECT format('change %s (epoch %s) comes after %s (epoch %s)', number, epoch, before, epoch_before) AS text
   FROM numbered WHERE number <> before + 1 OR epoch < epoch_before
   UNION ALL
   SELECT format('the counter stands at %s (epoch %s), the last change is %s (epoch %s)', number, epoch, last, last_epoch)
   FROM counter WHERE number IS DISTINCT FROM last OR epoch < last_epoch`,
);

/** A reminder that still waits for a duty that is not open any more, or for a date it no longer has. */
export const STRAY_REMINDERS: Statement<Difference> = {
  text: `
    SELECT format('duty %s: a reminder of stage %s waits for a date that does not stand', duty.id, reminder.stage) AS text
    FROM reminder JOIN duty ON duty.tenant_id = reminder.tenant_id AND duty.id = reminder.duty_id
    WHERE reminder.tenant_id = $1::uuid AND reminder.reminded_at IS NULL AND reminder.dropped_at IS NULL
      AND (duty.state <> 'open' OR duty.due_at IS NULL OR reminder.due_epoch <> floor(extract(epoch FROM duty.due_at)))
    ORDER BY duty.id, reminder.stage`,
  row: Difference,
};

const OpenDuty = z.object({ id: z.string(), dueAt: z.date(), timeZone: z.string(), stages: z.array(z.number()) });
/** Open duties with a date, each with the stages that have a row for that date. */
export const OPEN_DUTIES: Statement<z.output<typeof OpenDuty>> = {
  text: `
    SELECT duty.id, duty.due_at AS "dueAt", site.time_zone AS "timeZone",
      coalesce(array_agg(reminder.stage) FILTER (WHERE reminder.stage IS NOT NULL), '{}') AS stages
    FROM duty
    JOIN circuit ON circuit.tenant_id = duty.tenant_id AND circuit.id = duty.circuit_id
    JOIN unit ON unit.tenant_id = circuit.tenant_id AND unit.id = circuit.unit_id
    JOIN site ON site.tenant_id = unit.tenant_id AND site.id = unit.site_id
    LEFT JOIN reminder ON reminder.tenant_id = duty.tenant_id AND reminder.duty_id = duty.id AND reminder.dropped_at IS NULL
      AND reminder.due_epoch = floor(extract(epoch FROM duty.due_at))
    WHERE duty.tenant_id = $1::uuid AND duty.state = 'open' AND duty.due_at IS NOT NULL
    GROUP BY duty.id, duty.due_at, site.time_zone ORDER BY duty.id`,
  row: OpenDuty,
};

/** What no foreign key says: gas without an account, and movements that no replay would meet. */
export const UNMET: Statement<Difference> = {
  text: `
    SELECT format('cylinder %s has no gas account', id) AS text FROM cylinder
    WHERE tenant_id = $1::uuid AND NOT EXISTS (
      SELECT FROM gas_account a WHERE a.tenant_id = cylinder.tenant_id AND a.cylinder_id = cylinder.id)
    UNION ALL
    SELECT format('circuit %s has no gas account', id) FROM circuit
    WHERE tenant_id = $1::uuid AND NOT EXISTS (
      SELECT FROM gas_account a WHERE a.tenant_id = circuit.tenant_id AND a.circuit_id = circuit.id)
    UNION ALL
    SELECT format('movement %s was derived from an account it does not touch', id) FROM movement
    WHERE tenant_id = $1::uuid AND derived_key IS NOT NULL
      AND derived_key::jsonb ->> 0 NOT IN (from_id::text, to_id::text)
    UNION ALL
    SELECT format('movement %s rests on no fact', id) FROM movement WHERE tenant_id = $1::uuid AND fact_id IS NULL`,
  row: Difference,
};

const Reference = z.object({
  name: z.string(),
  child: z.string(),
  parent: z.string(),
  childColumns: z.array(z.string()),
  parentColumns: z.array(z.string()),
});
export type Reference = z.output<typeof Reference>;
/** Every foreign key between our tables, names quoted. */
export const REFERENCES: Statement<Reference> = {
  text: `
    SELECT c.conname AS name, c.conrelid::regclass::text AS child, c.confrelid::regclass::text AS parent,
      ARRAY(SELECT quote_ident(a.attname) FROM unnest(c.conkey) WITH ORDINALITY k(n, i)
        JOIN pg_attribute a ON a.attrelid = c.conrelid AND a.attnum = k.n ORDER BY k.i) AS "childColumns",
      ARRAY(SELECT quote_ident(a.attname) FROM unnest(c.confkey) WITH ORDINALITY k(n, i)
        JOIN pg_attribute a ON a.attrelid = c.confrelid AND a.attnum = k.n ORDER BY k.i) AS "parentColumns"
    FROM pg_constraint c WHERE c.contype = 'f' AND c.connamespace = 'public'::regnamespace ORDER BY c.conname`,
  row: Reference,
};

/** Rows of one foreign key whose other end is not there. The walls let only this contractor's rows through. */
export const danglers = ({ name, child, parent, childColumns, parentColumns }: Reference): string => `
  SELECT format('${name}: %s rows point at nothing', count(*)) AS text FROM ${child} AS c
  WHERE ${childColumns.map((column) => `c.${column} IS NOT NULL`).join(' AND ')} AND NOT EXISTS (
    SELECT FROM ${parent} AS p WHERE ${childColumns.map((column, i) => `p.${parentColumns[i] ?? ''} = c.${column}`).join(' AND ')})
  HAVING count(*) > 0`;
export const danglersOf = (references: readonly Reference[]): Statement<Difference> => ({
  text: references.map(danglers).join(' UNION ALL '),
  row: Difference,
});
