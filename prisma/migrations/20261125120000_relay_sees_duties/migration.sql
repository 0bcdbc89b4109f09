-- The sweep asks which contractors have duties near: the relay sees whose they are and when, and nothing else of a duty.
CREATE POLICY due_everywhere ON duty FOR SELECT TO ullage_relay USING (true);
GRANT SELECT (tenant_id, state, due_at) ON duty TO ullage_relay;

-- What still waits is little beside what was ever sent, and is looked for every few seconds.
CREATE INDEX outbox_waits ON outbox (tenant_id, created_at) WHERE sent_at IS NULL;
CREATE INDEX reminder_waits ON reminder (tenant_id, plan_at) WHERE reminded_at IS NULL AND dropped_at IS NULL;
