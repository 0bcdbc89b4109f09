/** What a take-over is told again: people, photos and, in the order in which it took effect, everything that happened. */
import { iso } from './rows.ts';

/** People of no command came by their membership. */
export const PEOPLE = `
  SELECT json_build_object('id', p.id, 'name', p.name, 'email', p.email, 'userId', p.user_id, 'role', p.role, 'active', p.active,
    'createdAt', ${iso('p.created_at')}, 'byCommand', EXISTS (
      SELECT FROM audit a WHERE a.tenant_id = p.tenant_id AND a.record_kind = 'person' AND a.record_id = p.id
      AND a.action = 'register-person' AND a.detail ->> 'op' = 'made'))::text AS line
  FROM person p ORDER BY p.created_at, p.id`;

export const PHOTOS = `
  SELECT json_build_object('hash', b.hash, 'bytes', b.bytes, 'mediaType', b.media_type, 'width', b.width, 'height', b.height,
    'namedAt', ${iso('b.named_at')}, 'completeAt', ${iso('b.complete_at')}, 'small', b.thumbnail IS NOT NULL)::text AS line
  FROM blob b WHERE b.state = 'complete' ORDER BY b.hash`;

const CAME = `'id', c.id, 'kind', c.kind, 'device', CASE WHEN c.device_id IS NULL THEN NULL
    ELSE json_build_object('id', c.device_id, 'seq', c.device_seq) END, 'envelope', c.envelope, 'hash', c.hash,
  'userId', c.user_id, 'happenedAt', ${iso('c.happened_at')}, 'sentAt', ${iso('c.sent_at')},
  'receivedAt', ${iso('c.received_at')}, 'answer', c.answer`;
/** The feed is numbered in the order of commits. Before it named its causes, the audit trail says which change was whose. */
const CAUSED = `
  SELECT cause_id, max(number) AS number FROM feed WHERE cause_id IS NOT NULL GROUP BY cause_id
  UNION ALL
  SELECT a.command_id, max(f.number) FROM feed f JOIN audit a ON a.tenant_id = f.tenant_id AND a.record_kind = f.kind
    AND a.record_id = f.record_id AND a.at = f.at
  WHERE f.cause_id IS NULL AND a.command_id IS NOT NULL
    AND NOT EXISTS (SELECT FROM feed own WHERE own.tenant_id = a.tenant_id AND own.cause_id = a.command_id)
  GROUP BY a.command_id`;
const MADE = `SELECT kind, record_id, min(number) AS number FROM feed WHERE op = 'made' AND kind IN ('notice', 'attention') GROUP BY kind, record_id`;
const CARRIED_OUT = `'running', 'done', 'undoing', 'undone'`;
/** Items that no command made. */
const ITEMS = `
  SELECT i.id, i.kind, i.command_id, i.reason, i.problem, i.subject_kind, i.subject_id, i.opened_at, made.number FROM attention i LEFT JOIN made ON made.kind = 'attention' AND made.record_id = i.id
  WHERE NOT EXISTS (SELECT FROM audit a WHERE a.tenant_id = i.tenant_id AND a.record_kind = 'attention' AND a.record_id = i.id
    AND a.command_id IS NOT NULL AND a.detail ->> 'op' = 'made')`;

/**
 * What changed nothing, and so has no number, stands after what had happened by then.
 * `rank` puts what came before what it led to, where both bear one instant.
 */
export const HISTORY = `
  WITH caused AS (${CAUSED}), made AS (${MADE}), items AS MATERIALIZED (${ITEMS}),
  events AS (
    SELECT c.applied_at AS at, caused.number, 3 AS rank, c.id AS tie,
      json_build_object('what', 'command', ${CAME}, 'appliedAt', ${iso('c.applied_at')}) AS line
    FROM command c LEFT JOIN caused ON caused.cause_id = c.id WHERE c.state = 'applied'
    UNION ALL
    SELECT c.received_at, NULL, 0, c.id, json_build_object('what', 'kept', ${CAME},
      'state', CASE WHEN c.state = 'waiting' OR items.reason = '/problems/still-waiting' THEN 'waiting' ELSE 'attention' END,
      'waitsFor', (SELECT coalesce(json_agg(w.waits_for ORDER BY w.waits_for), '[]') FROM command_wait w
        WHERE w.tenant_id = c.tenant_id AND w.command_id = c.id))
    FROM command c LEFT JOIN LATERAL (SELECT reason FROM items WHERE items.command_id = c.id ORDER BY opened_at LIMIT 1) items ON true
    -- What was taken back before it came has a row without content: taking it back makes that again.
    WHERE c.hash <> '' AND (c.state <> 'applied' OR items.reason IS NOT NULL)
    UNION ALL
    SELECT i.opened_at, i.number, 1, i.id, json_build_object('what', 'attention', 'id', i.id, 'kind', i.kind,
      'commandId', i.command_id, 'reason', i.reason, 'problem', i.problem, 'subjectKind', i.subject_kind,
      'subjectId', i.subject_id, 'openedAt', ${iso('i.opened_at')})
    FROM items i
    UNION ALL
    SELECT i.closed_at, NULL, 4, i.id, json_build_object('what', 'settled', 'id', i.id, 'at', ${iso('i.closed_at')}, 'how', i.closed_how)
    FROM attention i WHERE i.closed_at IS NOT NULL AND i.closed_by IS NULL
    UNION ALL
    SELECT passed.at, caused.number, 2, passed.cause, json_build_object('what', 'time-passed', 'circuit', passed.circuit,
      'cause', passed.cause, 'at', ${iso('passed.at')})
    FROM (SELECT DISTINCT a.at, (a.detail ->> 'circuit')::uuid AS circuit, (a.detail ->> 'cause')::uuid AS cause
      FROM audit a WHERE a.action = 'time-passed' AND a.detail ? 'cause') passed
    LEFT JOIN caused ON caused.cause_id = passed.cause
    UNION ALL
    SELECT r.made_at, NULL, -2, r.id, json_build_object('what', 'import', 'id', r.id, 'kind', r.kind, 'fileName', r.file_name,
      'fileBytes', r.file_bytes, 'fileHash', r.file_hash, 'format', r.format, 'header', r.header, 'headerKey', r.header_key,
      'matched', r.matched, 'settings', r.settings, 'decisions', r.decisions, 'byUserId', r.by_user_id,
      'madeAt', ${iso('r.made_at')}, 'checkedAt', ${iso('r.checked_at')}, 'startedAt', ${iso('r.started_at')})
    FROM import_run r WHERE r.state IN (${CARRIED_OUT})
    UNION ALL
    SELECT r.made_at, NULL, -1, i.command_id, json_build_object('what', 'import-row', 'importId', i.import_id, 'number', i.number,
      'cells', i.cells, 'state', CASE i.state WHEN 'kept' THEN 'kept' ELSE 'done' END, 'makes', i.makes, 'commandId', i.command_id,
      'commandKind', i.command_kind, 'body', i.body, 'madeCustomerId', i.made_customer_id, 'madeSiteId', i.made_site_id,
      'madeUnitId', i.made_unit_id, 'madeCircuitId', i.made_circuit_id, 'onCircuitId', i.on_circuit_id,
      'madeCylinderId', i.made_cylinder_id, 'madePersonId', i.made_person_id)
    FROM import_row i JOIN import_run r ON r.tenant_id = i.tenant_id AND r.id = i.import_id
    WHERE r.state IN (${CARRIED_OUT}) AND i.state IN ('done', 'kept', 'undone')
    UNION ALL
    SELECT coalesce(r.ended_at, r.started_at, r.made_at), NULL, 9, r.id, json_build_object('what', 'import-stands', 'id', r.id,
      'state', CASE r.state WHEN 'undone' THEN 'undone' ELSE 'done' END, 'endedAt', ${iso('r.ended_at')})
    FROM import_run r WHERE r.state IN (${CARRIED_OUT})
    UNION ALL
    SELECT coalesce(n.at, r.reminded_at), made.number, 5, coalesce(n.id, r.duty_id), json_build_object('what', 'reminded',
      'dutyId', coalesce(n.duty_id, r.duty_id), 'stage', coalesce(r.stage, (n.body ->> 'stage')::int),
      'dueEpoch', r.due_epoch, 'at', ${iso('coalesce(n.at, r.reminded_at)')}, 'notice', CASE WHEN n.id IS NULL THEN NULL
        ELSE json_build_object('id', n.id, 'role', n.role, 'kind', n.kind, 'body', n.body) END)
    FROM reminder r FULL JOIN notice n ON n.tenant_id = r.tenant_id AND n.duty_id = r.duty_id AND n.at = r.reminded_at
      AND n.body ->> 'stage' = r.stage::text
    LEFT JOIN made ON made.kind = 'notice' AND made.record_id = n.id
    WHERE r.reminded_at IS NOT NULL OR n.duty_id IS NOT NULL
  )
  SELECT line::text AS line FROM (SELECT line, at, rank, tie, coalesce(number, max(number) OVER (
    ORDER BY at, rank, tie ROWS BETWEEN UNBOUNDED PRECEDING AND CURRENT ROW)) AS place FROM events) AS placed
  ORDER BY place NULLS FIRST, at, rank, tie`;

/** How the books stand: an outside account is told by its kind, and the contractor's own gas bears no owner. */
export const BOOKS = `
  SELECT line FROM (
    SELECT json_build_object('what', 'balance', 'account', a.kind, 'id', coalesce(a.cylinder_id, a.circuit_id),
      'refrigerant', b.refrigerant, 'owner', nullif(b.owner, b.tenant_id), 'state', b.state, 'grams', b.grams)::text AS line
    FROM balance b JOIN gas_account a ON a.tenant_id = b.tenant_id AND a.id = b.account_id WHERE b.grams <> 0
    UNION ALL
    SELECT json_build_object('what', 'duty', 'id', d.id, 'circuit', d.circuit_id, 'kind', d.kind, 'state', d.state,
      'dueOn', d.due_on, 'dueAt', ${iso('d.due_at')})::text FROM duty d
    UNION ALL
    SELECT json_build_object('what', 'count', 'of', c.name, 'rows', c.rows)::text FROM (
      ${[
        'customer',
        'site',
        'unit',
        'circuit',
        'cylinder',
        'instrument',
        'certificate',
        'visit',
        'fact',
        'weighing',
        'movement',
        'leak_point',
        'calculation',
        'gas_price',
        'gas_bill',
        'blob',
      ]
        .map((name) => `SELECT '${name}' AS name, count(*) AS rows FROM ${name}`)
        .join(' UNION ALL ')}) c
  ) books ORDER BY line COLLATE "C"`;
export const ACCOUNTS = `
  SELECT json_build_object('refrigerant', b.refrigerant, 'account', b.kind, 'grams', sum(b.grams)::bigint)::text AS line
  FROM balance b GROUP BY b.refrigerant, b.kind ORDER BY b.refrigerant, b.kind`;
