-- Leaving: everything of a contractor in one file, and such a file taken over by a contractor that has nothing yet. The
-- row is order, lease and record in one, as with mails; its bytes lie beside it, as a photo's do.
CREATE TABLE parcel (
  tenant_id uuid NOT NULL,
  id uuid NOT NULL,
  kind text NOT NULL,
  asked_by uuid NOT NULL,
  asked_at timestamptz(3) NOT NULL,
  state text NOT NULL,
  next_at timestamptz(3) NOT NULL, -- who works moves it on, and so holds it
  tries integer NOT NULL,
  step text, -- what is being done
  done integer NOT NULL,
  total integer NOT NULL,
  bytes integer,
  digest text, -- SHA-256 of the whole; of one that is sent, of its two ends
  manifest jsonb,
  found jsonb, -- what is wrong with a file, or differs after it was taken over
  ended_at timestamptz(3),
  expires_at timestamptz(3), -- its bytes go then; the row stays
  CONSTRAINT parcel_pkey PRIMARY KEY (tenant_id, id),
  CONSTRAINT parcel_kind CHECK (kind IN ('export', 'take-over')),
  CONSTRAINT parcel_state CHECK (state IN ('arriving', 'waiting', 'working', 'done', 'refused', 'failed')),
  CONSTRAINT parcel_arrives_from_outside CHECK (state NOT IN ('arriving', 'refused') OR kind = 'take-over'),
  CONSTRAINT parcel_has_a_size CHECK (bytes BETWEEN 1 AND 2000000000),
  CONSTRAINT parcel_ends CHECK ((state IN ('done', 'refused', 'failed')) = (ended_at IS NOT NULL))
);
CREATE INDEX parcel_tenant_id_asked_by_idx ON parcel(tenant_id, asked_by);
-- One of a kind at a time.
CREATE UNIQUE INDEX parcel_one_works ON parcel (tenant_id, kind) WHERE state IN ('waiting', 'working');
CREATE INDEX parcel_waits ON parcel (next_at) WHERE state IN ('waiting', 'working');
CREATE INDEX parcel_expires ON parcel (expires_at) WHERE expires_at IS NOT NULL;
CREATE TABLE parcel_part (
  tenant_id uuid NOT NULL,
  parcel_id uuid NOT NULL,
  number integer NOT NULL,
  content bytea NOT NULL,
  CONSTRAINT parcel_part_pkey PRIMARY KEY (tenant_id, parcel_id, number),
  CONSTRAINT parcel_part_is_numbered CHECK (number >= 0),
  CONSTRAINT parcel_part_has_a_size CHECK (octet_length(content) BETWEEN 1 AND 256 * 1024)
);
-- It is compressed already.
ALTER TABLE parcel_part ALTER COLUMN content SET STORAGE EXTERNAL;

ALTER TABLE parcel ADD CONSTRAINT parcel_tenant_id_fkey FOREIGN KEY (tenant_id) REFERENCES tenant(id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE parcel ADD CONSTRAINT parcel_tenant_id_asked_by_fkey FOREIGN KEY (tenant_id, asked_by) REFERENCES person(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE parcel_part ADD CONSTRAINT parcel_part_tenant_id_fkey FOREIGN KEY (tenant_id) REFERENCES tenant(id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE parcel_part ADD CONSTRAINT parcel_part_tenant_id_parcel_id_fkey FOREIGN KEY (tenant_id, parcel_id) REFERENCES parcel(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE parcel ENABLE ROW LEVEL SECURITY, FORCE ROW LEVEL SECURITY;
CREATE POLICY own_tenant ON parcel USING (tenant_id = (SELECT current_tenant())) WITH CHECK (tenant_id = (SELECT current_tenant()));
GRANT SELECT, INSERT, UPDATE (state, next_at, tries, step, done, total, bytes, digest, manifest, found, ended_at, expires_at) ON parcel TO ullage_app;
ALTER TABLE parcel_part ENABLE ROW LEVEL SECURITY, FORCE ROW LEVEL SECURITY;
CREATE POLICY own_tenant ON parcel_part USING (tenant_id = (SELECT current_tenant())) WITH CHECK (tenant_id = (SELECT current_tenant()));
GRANT SELECT, INSERT, DELETE ON parcel_part TO ullage_app;

-- The relay sees whose turn it is, and nothing of what is in it.
CREATE POLICY due_everywhere ON parcel FOR SELECT TO ullage_relay USING (true);
GRANT SELECT (tenant_id, id, state, next_at, expires_at) ON parcel TO ullage_relay;

-- While it is filled from a file nobody else writes in it, and no night's work is done for it.
ALTER TABLE tenant ADD COLUMN taking_over boolean NOT NULL DEFAULT false;
GRANT UPDATE (taking_over) ON tenant TO ullage_app;

-- The command, or the work of a night, that made the change. The feed is numbered in the order of commits: by this the
-- commands can be told again in the order in which they took effect.
ALTER TABLE feed ADD COLUMN cause_id uuid;
