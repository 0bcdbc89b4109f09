-- Files that a contractor begins with: what was chosen, what each row would make and made, and how it is taken back.

CREATE TABLE import_run (
  tenant_id UUID NOT NULL,
  id UUID NOT NULL,
  kind TEXT NOT NULL,
  state TEXT NOT NULL,
  turn INTEGER NOT NULL,
  file_name TEXT NOT NULL,
  file_bytes INTEGER NOT NULL,
  file_hash TEXT NOT NULL,
  format TEXT,
  header JSONB NOT NULL,
  header_key TEXT NOT NULL,
  matched JSONB NOT NULL,
  settings JSONB NOT NULL,
  decisions JSONB NOT NULL,
  problem TEXT,
  by_user_id UUID NOT NULL,
  made_at TIMESTAMPTZ(3) NOT NULL,
  checked_at TIMESTAMPTZ(3),
  started_at TIMESTAMPTZ(3),
  ended_at TIMESTAMPTZ(3),
  CONSTRAINT import_run_pkey PRIMARY KEY (tenant_id, id)
);
CREATE INDEX import_run_tenant_id_made_at_idx ON import_run(tenant_id, made_at);
ALTER TABLE import_run ADD CONSTRAINT import_run_tenant_id_fkey FOREIGN KEY (tenant_id) REFERENCES tenant(id) ON DELETE RESTRICT ON UPDATE CASCADE;

CREATE TABLE import_file (
  tenant_id UUID NOT NULL,
  import_id UUID NOT NULL,
  content BYTEA NOT NULL,
  CONSTRAINT import_file_pkey PRIMARY KEY (tenant_id, import_id)
);
ALTER TABLE import_file ADD CONSTRAINT import_file_tenant_id_fkey FOREIGN KEY (tenant_id) REFERENCES tenant(id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE import_file ADD CONSTRAINT import_file_tenant_id_import_id_fkey FOREIGN KEY (tenant_id, import_id) REFERENCES import_run(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;

CREATE TABLE import_row (
  tenant_id UUID NOT NULL,
  import_id UUID NOT NULL,
  number INTEGER NOT NULL,
  cells JSONB NOT NULL,
  state TEXT NOT NULL,
  faults JSONB NOT NULL,
  makes JSONB NOT NULL,
  asks JSONB NOT NULL,
  command_id UUID NOT NULL,
  command_kind TEXT,
  body JSONB,
  made_customer_id UUID,
  made_site_id UUID,
  made_unit_id UUID,
  made_circuit_id UUID,
  on_circuit_id UUID,
  CONSTRAINT import_row_pkey PRIMARY KEY (tenant_id, import_id, number)
);
CREATE INDEX import_row_tenant_id_import_id_state_number_idx ON import_row(tenant_id, import_id, state, number);
CREATE INDEX import_row_tenant_id_command_id_idx ON import_row(tenant_id, command_id);
ALTER TABLE import_row ADD CONSTRAINT import_row_tenant_id_fkey FOREIGN KEY (tenant_id) REFERENCES tenant(id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE import_row ADD CONSTRAINT import_row_tenant_id_import_id_fkey FOREIGN KEY (tenant_id, import_id) REFERENCES import_run(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;

-- Which column holds what, remembered for files with the same headings.
CREATE TABLE column_map (
  tenant_id UUID NOT NULL,
  kind TEXT NOT NULL,
  header_key TEXT NOT NULL,
  matched JSONB NOT NULL,
  settings JSONB NOT NULL,
  changed_at TIMESTAMPTZ(3) NOT NULL,
  CONSTRAINT column_map_pkey PRIMARY KEY (tenant_id, kind, header_key)
);
ALTER TABLE column_map ADD CONSTRAINT column_map_tenant_id_fkey FOREIGN KEY (tenant_id) REFERENCES tenant(id) ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE import_run
  ADD CONSTRAINT import_run_kind CHECK (kind IN ('equipment', 'additions', 'cylinders', 'people')),
  ADD CONSTRAINT import_run_state CHECK (state IN ('reading', 'unreadable', 'read', 'checking', 'checked', 'running',
    'done', 'undoing', 'undone')),
  ADD CONSTRAINT import_run_has_a_size CHECK (file_bytes BETWEEN 1 AND 8 * 1024 * 1024);
ALTER TABLE import_file
  ADD CONSTRAINT import_file_has_a_size CHECK (octet_length(content) BETWEEN 1 AND 8 * 1024 * 1024);
ALTER TABLE import_row
  ADD CONSTRAINT import_row_state CHECK (state IN ('unread', 'wrong', 'decide', 'skipped', 'known', 'fine', 'done',
    'failed', 'undone', 'kept')),
  ADD CONSTRAINT import_row_carries_its_command CHECK (
    (state NOT IN ('fine', 'done', 'failed', 'undone', 'kept'))
    OR (command_kind IS NOT NULL AND body IS NOT NULL));

-- What a whole import made is taken back by being withdrawn, never by being deleted: facts and movements name it.
ALTER TABLE customer ADD COLUMN withdrawn_at TIMESTAMPTZ(3);
ALTER TABLE site ADD COLUMN withdrawn_at TIMESTAMPTZ(3);
ALTER TABLE unit ADD COLUMN withdrawn_at TIMESTAMPTZ(3);
ALTER TABLE circuit ADD COLUMN withdrawn_at TIMESTAMPTZ(3);

ALTER TABLE import_run ENABLE ROW LEVEL SECURITY, FORCE ROW LEVEL SECURITY;
CREATE POLICY own_tenant ON import_run USING (tenant_id = (SELECT current_tenant())) WITH CHECK (tenant_id = (SELECT current_tenant()));
ALTER TABLE import_file ENABLE ROW LEVEL SECURITY, FORCE ROW LEVEL SECURITY;
CREATE POLICY own_tenant ON import_file USING (tenant_id = (SELECT current_tenant())) WITH CHECK (tenant_id = (SELECT current_tenant()));
ALTER TABLE import_row ENABLE ROW LEVEL SECURITY, FORCE ROW LEVEL SECURITY;
CREATE POLICY own_tenant ON import_row USING (tenant_id = (SELECT current_tenant())) WITH CHECK (tenant_id = (SELECT current_tenant()));
ALTER TABLE column_map ENABLE ROW LEVEL SECURITY, FORCE ROW LEVEL SECURITY;
CREATE POLICY own_tenant ON column_map USING (tenant_id = (SELECT current_tenant())) WITH CHECK (tenant_id = (SELECT current_tenant()));

-- The relay sees which imports have work for the night, and nothing of what is in them.
CREATE POLICY due_everywhere ON import_run FOR SELECT TO ullage_relay
  USING (state IN ('reading', 'checking', 'running', 'undoing'));
GRANT SELECT (tenant_id, id, state, turn) ON import_run TO ullage_relay;
CREATE INDEX import_run_works ON import_run (tenant_id, id) WHERE state IN ('reading', 'checking', 'running', 'undoing');

-- What was chosen stays as it was chosen; how far it has come changes.
GRANT SELECT, INSERT, UPDATE (state, turn, format, header, header_key, matched, settings, decisions, problem, by_user_id,
  checked_at, started_at, ended_at) ON import_run TO ullage_app;
GRANT SELECT, INSERT ON import_file TO ullage_app;
GRANT SELECT, INSERT, UPDATE (state, faults, makes, asks, command_kind, body, made_customer_id, made_site_id,
  made_unit_id, made_circuit_id, on_circuit_id) ON import_row TO ullage_app;
GRANT SELECT, INSERT, UPDATE (matched, settings, changed_at) ON column_map TO ullage_app;
GRANT UPDATE (withdrawn_at) ON customer, site, unit, circuit TO ullage_app;
