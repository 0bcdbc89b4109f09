-- Photos and signatures: by the hash of their bytes, each contractor's own, in parts as they arrived.

CREATE TABLE blob (
  tenant_id UUID NOT NULL,
  hash TEXT NOT NULL,
  bytes INTEGER,
  media_type TEXT,
  state TEXT NOT NULL,
  width INTEGER,
  height INTEGER,
  thumbnail BYTEA,
  named_at TIMESTAMPTZ(3) NOT NULL,
  complete_at TIMESTAMPTZ(3),
  CONSTRAINT blob_pkey PRIMARY KEY (tenant_id, hash)
);
CREATE INDEX blob_tenant_id_state_named_at_idx ON blob(tenant_id, state, named_at);
ALTER TABLE blob ADD CONSTRAINT blob_tenant_id_fkey FOREIGN KEY (tenant_id) REFERENCES tenant(id) ON DELETE RESTRICT ON UPDATE CASCADE;

CREATE TABLE blob_chunk (
  tenant_id UUID NOT NULL,
  hash TEXT NOT NULL,
  number INTEGER NOT NULL,
  content BYTEA NOT NULL,
  CONSTRAINT blob_chunk_pkey PRIMARY KEY (tenant_id, hash, number)
);
ALTER TABLE blob_chunk ADD CONSTRAINT blob_chunk_tenant_id_fkey FOREIGN KEY (tenant_id) REFERENCES tenant(id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE blob_chunk ADD CONSTRAINT blob_chunk_tenant_id_hash_fkey FOREIGN KEY (tenant_id, hash) REFERENCES blob(tenant_id, hash) ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE fact_ref ADD COLUMN blob_hash TEXT;
CREATE INDEX fact_ref_tenant_id_blob_hash_idx ON fact_ref(tenant_id, blob_hash);
ALTER TABLE fact_ref ADD CONSTRAINT fact_ref_tenant_id_blob_hash_fkey FOREIGN KEY (tenant_id, blob_hash) REFERENCES blob(tenant_id, hash) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE fact_ref
  DROP CONSTRAINT fact_ref_names_one_thing,
  ADD CONSTRAINT fact_ref_names_one_thing
    CHECK (num_nonnulls(cylinder_id, leak_point_id, instrument_id, person_id, blob_hash) = 1);

ALTER TABLE blob
  ADD CONSTRAINT blob_is_named_by_sha256 CHECK (hash ~ '^[0-9a-f]{64}$'),
  ADD CONSTRAINT blob_has_a_size CHECK (bytes BETWEEN 1 AND 20 * 1024 * 1024),
  ADD CONSTRAINT blob_is_awaited_arriving_or_complete CHECK (
    (state = 'awaited' AND bytes IS NULL)
    OR (state = 'arriving' AND bytes IS NOT NULL AND complete_at IS NULL)
    OR (state = 'complete' AND bytes IS NOT NULL AND complete_at IS NOT NULL AND media_type IS NOT NULL));
ALTER TABLE blob_chunk
  ADD CONSTRAINT blob_chunk_is_numbered CHECK (number >= 0),
  ADD CONSTRAINT blob_chunk_has_a_size CHECK (octet_length(content) BETWEEN 1 AND 256 * 1024);
-- Photos are compressed already.
ALTER TABLE blob_chunk ALTER COLUMN content SET STORAGE EXTERNAL;
ALTER TABLE blob ALTER COLUMN thumbnail SET STORAGE EXTERNAL;

-- What has arrived whole is evidence: neither it nor a part of it changes any more.
CREATE FUNCTION blob_stands() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF OLD.state = 'complete' THEN
    RAISE EXCEPTION 'a complete photo is never changed' USING ERRCODE = 'restrict_violation';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER blob_stands BEFORE UPDATE ON blob FOR EACH ROW EXECUTE FUNCTION blob_stands();
CREATE FUNCTION blob_chunk_stands() RETURNS trigger LANGUAGE plpgsql AS $$
DECLARE
  part blob_chunk := coalesce(NEW, OLD);
BEGIN
  IF EXISTS (SELECT FROM blob WHERE tenant_id = part.tenant_id AND hash = part.hash AND state = 'complete') THEN
    RAISE EXCEPTION 'a part of a complete photo is never changed' USING ERRCODE = 'restrict_violation';
  END IF;
  RETURN part;
END $$;
CREATE TRIGGER blob_chunk_stands BEFORE INSERT OR UPDATE OR DELETE ON blob_chunk FOR EACH ROW EXECUTE FUNCTION blob_chunk_stands();

ALTER TABLE blob ENABLE ROW LEVEL SECURITY, FORCE ROW LEVEL SECURITY;
CREATE POLICY own_tenant ON blob USING (tenant_id = (SELECT current_tenant())) WITH CHECK (tenant_id = (SELECT current_tenant()));
ALTER TABLE blob_chunk ENABLE ROW LEVEL SECURITY, FORCE ROW LEVEL SECURITY;
CREATE POLICY own_tenant ON blob_chunk USING (tenant_id = (SELECT current_tenant())) WITH CHECK (tenant_id = (SELECT current_tenant()));

GRANT SELECT, INSERT, UPDATE (bytes, media_type, state, width, height, thumbnail, complete_at) ON blob TO ullage_app;
GRANT SELECT, INSERT, DELETE ON blob_chunk TO ullage_app;
