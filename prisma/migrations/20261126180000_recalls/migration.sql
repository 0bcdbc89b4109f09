-- Recalls: what somebody works through once gas, an instrument or a tare turns out to be bad. What it touched is worked out
-- at each reading, so that a fact that comes late is among it; kept is only what was opened, and how each thing was settled.
CREATE TABLE recall (
  tenant_id uuid NOT NULL,
  id uuid NOT NULL,
  kind text NOT NULL,
  -- The same source at the same time is one recall, whoever opens it.
  key text NOT NULL,
  cylinder_id uuid,
  instrument_id uuid,
  fact_id uuid,
  since timestamptz(3),
  why text NOT NULL,
  opened_by uuid NOT NULL,
  opened_at timestamptz(3) NOT NULL,
  closed_at timestamptz(3),
  CONSTRAINT recall_pkey PRIMARY KEY (tenant_id,id),
  CONSTRAINT recall_kind CHECK (kind IN ('gas', 'instrument', 'tare')),
  CONSTRAINT recall_names_its_source CHECK ((kind = 'instrument') = (instrument_id IS NOT NULL)
    AND (kind = 'instrument') = (cylinder_id IS NULL) AND (kind = 'gas' OR fact_id IS NOT NULL))
);
CREATE UNIQUE INDEX recall_tenant_id_key_key ON recall(tenant_id, key);
CREATE INDEX recall_tenant_id_closed_at_opened_at_idx ON recall(tenant_id, closed_at, opened_at);
CREATE INDEX recall_tenant_id_cylinder_id_idx ON recall(tenant_id, cylinder_id);
CREATE INDEX recall_tenant_id_instrument_id_idx ON recall(tenant_id, instrument_id);
CREATE INDEX recall_tenant_id_fact_id_idx ON recall(tenant_id, fact_id);
CREATE INDEX recall_tenant_id_opened_by_idx ON recall(tenant_id, opened_by);
ALTER TABLE recall ADD CONSTRAINT recall_tenant_id_fkey FOREIGN KEY (tenant_id) REFERENCES tenant(id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE recall ADD CONSTRAINT recall_tenant_id_cylinder_id_fkey FOREIGN KEY (tenant_id, cylinder_id) REFERENCES cylinder(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE recall ADD CONSTRAINT recall_tenant_id_instrument_id_fkey FOREIGN KEY (tenant_id, instrument_id) REFERENCES instrument(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE recall ADD CONSTRAINT recall_tenant_id_fact_id_fkey FOREIGN KEY (tenant_id, fact_id) REFERENCES fact(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE recall ADD CONSTRAINT recall_tenant_id_opened_by_fkey FOREIGN KEY (tenant_id, opened_by) REFERENCES person(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE recall ENABLE ROW LEVEL SECURITY, FORCE ROW LEVEL SECURITY;
CREATE POLICY own_tenant ON recall USING (tenant_id = (SELECT current_tenant())) WITH CHECK (tenant_id = (SELECT current_tenant()));
GRANT SELECT, INSERT, UPDATE (closed_at) ON recall TO ullage_app;

-- How a thing was settled. Gas that comes to it later asks about it again, so that a thing may stand here more than once.
CREATE TABLE recall_item (
  tenant_id uuid NOT NULL,
  id uuid NOT NULL,
  recall_id uuid NOT NULL,
  kind text NOT NULL,
  subject_id uuid NOT NULL,
  how text NOT NULL,
  why text,
  visit_id uuid,
  settled_by uuid NOT NULL,
  settled_at timestamptz(3) NOT NULL,
  CONSTRAINT recall_item_pkey PRIMARY KEY (tenant_id,id),
  CONSTRAINT recall_item_kind CHECK (kind IN ('cylinder', 'circuit', 'look', 'test', 'weighing')),
  CONSTRAINT recall_item_how CHECK (how IN ('set-aside', 'return-visit', 'look-again', 'test-again', 'nothing')),
  CONSTRAINT recall_item_nothing_has_a_reason CHECK (how <> 'nothing' OR why IS NOT NULL)
);
CREATE INDEX recall_item_tenant_id_recall_id_idx ON recall_item(tenant_id, recall_id);
CREATE INDEX recall_item_tenant_id_visit_id_idx ON recall_item(tenant_id, visit_id);
CREATE INDEX recall_item_tenant_id_settled_by_idx ON recall_item(tenant_id, settled_by);
ALTER TABLE recall_item ADD CONSTRAINT recall_item_tenant_id_fkey FOREIGN KEY (tenant_id) REFERENCES tenant(id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE recall_item ADD CONSTRAINT recall_item_tenant_id_recall_id_fkey FOREIGN KEY (tenant_id, recall_id) REFERENCES recall(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE recall_item ADD CONSTRAINT recall_item_tenant_id_visit_id_fkey FOREIGN KEY (tenant_id, visit_id) REFERENCES visit(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE recall_item ADD CONSTRAINT recall_item_tenant_id_settled_by_fkey FOREIGN KEY (tenant_id, settled_by) REFERENCES person(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE recall_item ENABLE ROW LEVEL SECURITY, FORCE ROW LEVEL SECURITY;
CREATE POLICY own_tenant ON recall_item USING (tenant_id = (SELECT current_tenant())) WITH CHECK (tenant_id = (SELECT current_tenant()));
GRANT SELECT, INSERT ON recall_item TO ullage_app;
