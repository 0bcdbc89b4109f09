-- A program that wants to be told when something changed. It is told that, and up to which change, and never what: it asks
-- for the changes by a key. One message is on its way to it at a time, so that a busy day costs it few.
CREATE TABLE webhook (
  tenant_id uuid NOT NULL,
  id uuid NOT NULL,
  url text NOT NULL,
  secret text NOT NULL, -- what its messages are signed with; the receiver must know it, so it cannot be kept as a hash
  epoch integer NOT NULL,
  number bigint NOT NULL, -- up to here it was told
  made_at timestamptz(3) NOT NULL,
  stopped_at timestamptz(3),
  stopped_why text,
  removed_at timestamptz(3),
  CONSTRAINT webhook_pkey PRIMARY KEY (tenant_id,id),
  CONSTRAINT webhook_url CHECK (url LIKE 'https://%'),
  CONSTRAINT webhook_stopped CHECK ((stopped_at IS NULL) = (stopped_why IS NULL) AND stopped_why IN ('failing', 'by-hand'))
);
-- A message and what became of it. Its tries are taken by moving next_at on, as with mails.
CREATE TABLE webhook_message (
  tenant_id uuid NOT NULL,
  id uuid NOT NULL,
  webhook_id uuid NOT NULL,
  kind text NOT NULL,
  body jsonb NOT NULL,
  made_at timestamptz(3) NOT NULL,
  next_at timestamptz(3) NOT NULL,
  tries integer NOT NULL,
  ended_at timestamptz(3),
  delivered boolean NOT NULL DEFAULT false,
  answer text, -- of the last try: a status, or a word for why there was none
  CONSTRAINT webhook_message_pkey PRIMARY KEY (tenant_id,id),
  CONSTRAINT webhook_message_kind CHECK (kind IN ('changed', 'test')),
  CONSTRAINT webhook_message_delivered CHECK (NOT delivered OR ended_at IS NOT NULL)
);
CREATE INDEX webhook_message_tenant_id_webhook_id_idx ON webhook_message(tenant_id, webhook_id, made_at);
CREATE UNIQUE INDEX webhook_message_one_waits ON webhook_message (tenant_id, webhook_id, kind) WHERE ended_at IS NULL;
CREATE INDEX webhook_message_waits ON webhook_message (next_at) WHERE ended_at IS NULL;

ALTER TABLE webhook ADD CONSTRAINT webhook_tenant_id_fkey FOREIGN KEY (tenant_id) REFERENCES tenant(id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE webhook_message ADD CONSTRAINT webhook_message_tenant_id_fkey FOREIGN KEY (tenant_id) REFERENCES tenant(id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE webhook_message ADD CONSTRAINT webhook_message_tenant_id_webhook_id_fkey FOREIGN KEY (tenant_id, webhook_id) REFERENCES webhook(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE webhook ENABLE ROW LEVEL SECURITY, FORCE ROW LEVEL SECURITY;
CREATE POLICY own_tenant ON webhook USING (tenant_id = (SELECT current_tenant())) WITH CHECK (tenant_id = (SELECT current_tenant()));
GRANT SELECT, INSERT, UPDATE (epoch, number, stopped_at, stopped_why, removed_at) ON webhook TO ullage_app;
ALTER TABLE webhook_message ENABLE ROW LEVEL SECURITY, FORCE ROW LEVEL SECURITY;
CREATE POLICY own_tenant ON webhook_message USING (tenant_id = (SELECT current_tenant())) WITH CHECK (tenant_id = (SELECT current_tenant()));
-- What ended long ago is pruned.
GRANT SELECT, INSERT, UPDATE (next_at, tries, ended_at, delivered, answer), DELETE ON webhook_message TO ullage_app;

-- The relay sees who is to be told and when, and neither address nor secret.
CREATE POLICY due_everywhere ON webhook FOR SELECT TO ullage_relay USING (true);
GRANT SELECT (tenant_id, id, epoch, number, stopped_at, removed_at) ON webhook TO ullage_relay;
CREATE POLICY due_everywhere ON webhook_message FOR SELECT TO ullage_relay USING (true);
GRANT SELECT (tenant_id, id, webhook_id, kind, next_at, ended_at) ON webhook_message TO ullage_relay;
