-- Keys by which a program acts for a contractor. They stand with the sign-in tables, because a key is looked up before
-- anybody knows whose it is. Only its hash is kept. A key is never changed, but used, and revoked once.
CREATE TABLE auth.api_key (
  id uuid NOT NULL,
  tenant_id uuid NOT NULL REFERENCES auth.organization (id) ON DELETE CASCADE,
  name text NOT NULL,
  role text NOT NULL,
  hash text COLLATE "C" NOT NULL,
  ending text NOT NULL, -- its last four characters, to tell two apart
  made_by uuid NOT NULL REFERENCES auth."user" (id) ON DELETE CASCADE,
  made_at timestamptz(3) NOT NULL,
  ends_at timestamptz(3) NOT NULL,
  used_at timestamptz(3),
  revoked_at timestamptz(3),
  CONSTRAINT api_key_pkey PRIMARY KEY (id),
  CONSTRAINT api_key_hash_key UNIQUE (hash),
  CONSTRAINT api_key_role CHECK (role IN ('manager', 'dispatcher', 'warehouse', 'technician', 'auditor'))
);
CREATE INDEX api_key_tenant_id_idx ON auth.api_key (tenant_id);
CREATE INDEX api_key_made_by_idx ON auth.api_key (made_by);
GRANT SELECT, INSERT, UPDATE (used_at, revoked_at) ON auth.api_key TO ullage_auth;
