-- Who has read a notice. It goes to a role: what one of them has read is still new to the others. The mark on the notice itself
-- said nothing of whom, and nothing ever wrote it.
ALTER TABLE notice DROP COLUMN read_at;

CREATE TABLE notice_read (
  tenant_id uuid NOT NULL,
  notice_id uuid NOT NULL,
  person_id uuid NOT NULL,
  read_at timestamptz(3) NOT NULL,
  CONSTRAINT notice_read_pkey PRIMARY KEY (tenant_id,notice_id,person_id)
);
CREATE INDEX notice_read_tenant_id_person_id_idx ON notice_read(tenant_id, person_id);

ALTER TABLE notice_read ADD CONSTRAINT notice_read_tenant_id_fkey FOREIGN KEY (tenant_id) REFERENCES tenant(id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE notice_read ADD CONSTRAINT notice_read_tenant_id_notice_id_fkey FOREIGN KEY (tenant_id, notice_id) REFERENCES notice(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE notice_read ADD CONSTRAINT notice_read_tenant_id_person_id_fkey FOREIGN KEY (tenant_id, person_id) REFERENCES person(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE notice_read ENABLE ROW LEVEL SECURITY, FORCE ROW LEVEL SECURITY;
CREATE POLICY own_tenant ON notice_read USING (tenant_id = (SELECT current_tenant())) WITH CHECK (tenant_id = (SELECT current_tenant()));
-- Read once is read: nobody takes it back.
GRANT SELECT, INSERT ON notice_read TO ullage_app;
