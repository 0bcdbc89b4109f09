-- A reminder's mail, one row per notice and person, written with the notice. The row is the whole of it: no queue has to
-- remember it. A try is taken by moving next_at on, which keeps a second worker away while the first talks to the mail
-- server, and is the pause before the next try if the first dies. No address and no word of the mail lies here: they are
-- read when it is sent.
CREATE TABLE notice_mail (
  tenant_id uuid NOT NULL,
  notice_id uuid NOT NULL,
  person_id uuid NOT NULL,
  next_at timestamptz(3) NOT NULL,
  tries integer NOT NULL,
  sent_at timestamptz(3),
  dropped_at timestamptz(3),
  last_error text,
  CONSTRAINT notice_mail_pkey PRIMARY KEY (tenant_id,notice_id,person_id),
  CONSTRAINT notice_mail_ends_once CHECK (sent_at IS NULL OR dropped_at IS NULL)
);
CREATE INDEX notice_mail_tenant_id_person_id_idx ON notice_mail(tenant_id, person_id);
-- What still waits is little beside what was ever sent, and is looked for every few seconds.
CREATE INDEX notice_mail_waits ON notice_mail (next_at) WHERE sent_at IS NULL AND dropped_at IS NULL;

ALTER TABLE notice_mail ADD CONSTRAINT notice_mail_tenant_id_fkey FOREIGN KEY (tenant_id) REFERENCES tenant(id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE notice_mail ADD CONSTRAINT notice_mail_tenant_id_notice_id_fkey FOREIGN KEY (tenant_id, notice_id) REFERENCES notice(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE notice_mail ADD CONSTRAINT notice_mail_tenant_id_person_id_fkey FOREIGN KEY (tenant_id, person_id) REFERENCES person(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE notice_mail ENABLE ROW LEVEL SECURITY, FORCE ROW LEVEL SECURITY;
CREATE POLICY own_tenant ON notice_mail USING (tenant_id = (SELECT current_tenant())) WITH CHECK (tenant_id = (SELECT current_tenant()));
GRANT SELECT, INSERT, UPDATE ON notice_mail TO ullage_app;

-- The relay sees whose mail is due, and nothing of it.
CREATE POLICY due_everywhere ON notice_mail FOR SELECT TO ullage_relay USING (true);
GRANT SELECT (tenant_id, notice_id, person_id, next_at, sent_at, dropped_at) ON notice_mail TO ullage_relay;
