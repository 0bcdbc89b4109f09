-- The manager's half: what gas costs since when, which visit's gas stands on which invoice, and which circuits are to be
-- replaced rather than topped off again. All three are kept as they were said: a price or a mark that was wrong is
-- withdrawn, by whom and when, and never rewritten.

-- The one currency a contractor reckons in. A price bears its own, so that a change here never gives an old figure a new meaning.
ALTER TABLE tenant ADD COLUMN currency text NOT NULL DEFAULT 'USD';
ALTER TABLE tenant ADD CONSTRAINT tenant_currency_is_a_code CHECK (currency ~ '^[A-Z]{3}$');

CREATE TABLE gas_price (
  tenant_id uuid NOT NULL,
  id uuid NOT NULL,
  refrigerant text NOT NULL,
  from_on date NOT NULL,
  unit text NOT NULL,
  purchase text,
  sale text,
  currency text NOT NULL,
  set_by uuid NOT NULL,
  set_at timestamptz(3) NOT NULL,
  withdrawn_by uuid,
  withdrawn_at timestamptz(3),
  CONSTRAINT gas_price_pkey PRIMARY KEY (tenant_id,id),
  CONSTRAINT gas_price_by_weight CHECK (unit IN ('kg', 'lb')),
  CONSTRAINT gas_price_says_something CHECK (purchase IS NOT NULL OR sale IS NOT NULL),
  CONSTRAINT gas_price_purchase_is_decimal CHECK (purchase ~ '^[0-9]{1,7}(\.[0-9]{1,4})?$'),
  CONSTRAINT gas_price_sale_is_decimal CHECK (sale ~ '^[0-9]{1,7}(\.[0-9]{1,4})?$'),
  CONSTRAINT gas_price_currency_is_a_code CHECK (currency ~ '^[A-Z]{3}$'),
  CONSTRAINT gas_price_withdrawn_by_somebody CHECK ((withdrawn_at IS NULL) = (withdrawn_by IS NULL))
);
CREATE INDEX gas_price_tenant_id_refrigerant_from_on_idx ON gas_price(tenant_id, refrigerant, from_on);
CREATE INDEX gas_price_tenant_id_set_by_idx ON gas_price(tenant_id, set_by);
CREATE INDEX gas_price_tenant_id_withdrawn_by_idx ON gas_price(tenant_id, withdrawn_by);
-- One price of a gas from a day on. A figure that was wrong is withdrawn first.
CREATE UNIQUE INDEX gas_price_stands_once ON gas_price (tenant_id, refrigerant, from_on, currency) WHERE withdrawn_at IS NULL;
ALTER TABLE gas_price ADD CONSTRAINT gas_price_tenant_id_fkey FOREIGN KEY (tenant_id) REFERENCES tenant(id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE gas_price ADD CONSTRAINT gas_price_tenant_id_set_by_fkey FOREIGN KEY (tenant_id, set_by) REFERENCES person(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE gas_price ADD CONSTRAINT gas_price_tenant_id_withdrawn_by_fkey FOREIGN KEY (tenant_id, withdrawn_by) REFERENCES person(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE gas_price ENABLE ROW LEVEL SECURITY, FORCE ROW LEVEL SECURITY;
CREATE POLICY own_tenant ON gas_price USING (tenant_id = (SELECT current_tenant())) WITH CHECK (tenant_id = (SELECT current_tenant()));
GRANT SELECT, INSERT, UPDATE (withdrawn_by, withdrawn_at) ON gas_price TO ullage_app;

-- The gas of one visit on one invoice. The grams are what the biller saw: a weight that is corrected later shows as a difference.
CREATE TABLE gas_bill (
  tenant_id uuid NOT NULL,
  id uuid NOT NULL,
  visit_id uuid NOT NULL,
  refrigerant text NOT NULL,
  grams integer NOT NULL,
  invoice text NOT NULL,
  billed_by uuid NOT NULL,
  billed_at timestamptz(3) NOT NULL,
  undone_by uuid,
  undone_at timestamptz(3),
  CONSTRAINT gas_bill_pkey PRIMARY KEY (tenant_id,id),
  CONSTRAINT gas_bill_of_something CHECK (grams > 0),
  CONSTRAINT gas_bill_undone_by_somebody CHECK ((undone_at IS NULL) = (undone_by IS NULL))
);
CREATE INDEX gas_bill_tenant_id_visit_id_idx ON gas_bill(tenant_id, visit_id);
CREATE INDEX gas_bill_tenant_id_billed_by_idx ON gas_bill(tenant_id, billed_by);
CREATE INDEX gas_bill_tenant_id_undone_by_idx ON gas_bill(tenant_id, undone_by);
-- Nobody is billed twice for one gas of one visit, whoever presses at the same moment.
CREATE UNIQUE INDEX gas_bill_stands_once ON gas_bill (tenant_id, visit_id, refrigerant) WHERE undone_at IS NULL;
ALTER TABLE gas_bill ADD CONSTRAINT gas_bill_tenant_id_fkey FOREIGN KEY (tenant_id) REFERENCES tenant(id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE gas_bill ADD CONSTRAINT gas_bill_tenant_id_visit_id_fkey FOREIGN KEY (tenant_id, visit_id) REFERENCES visit(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE gas_bill ADD CONSTRAINT gas_bill_tenant_id_billed_by_fkey FOREIGN KEY (tenant_id, billed_by) REFERENCES person(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE gas_bill ADD CONSTRAINT gas_bill_tenant_id_undone_by_fkey FOREIGN KEY (tenant_id, undone_by) REFERENCES person(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE gas_bill ENABLE ROW LEVEL SECURITY, FORCE ROW LEVEL SECURITY;
CREATE POLICY own_tenant ON gas_bill USING (tenant_id = (SELECT current_tenant())) WITH CHECK (tenant_id = (SELECT current_tenant()));
GRANT SELECT, INSERT, UPDATE (undone_by, undone_at) ON gas_bill TO ullage_app;

-- A circuit that is to be replaced, why and by when. The house's own plan: the law's retrofit and retirement plans are duties.
CREATE TABLE replacement_plan (
  tenant_id uuid NOT NULL,
  id uuid NOT NULL,
  circuit_id uuid NOT NULL,
  reason text NOT NULL,
  by_on date,
  planned_by uuid NOT NULL,
  planned_at timestamptz(3) NOT NULL,
  withdrawn_why text,
  withdrawn_by uuid,
  withdrawn_at timestamptz(3),
  CONSTRAINT replacement_plan_pkey PRIMARY KEY (tenant_id,id),
  CONSTRAINT replacement_plan_withdrawn_by_somebody CHECK ((withdrawn_at IS NULL) = (withdrawn_by IS NULL) AND (withdrawn_at IS NULL) = (withdrawn_why IS NULL))
);
CREATE INDEX replacement_plan_tenant_id_circuit_id_idx ON replacement_plan(tenant_id, circuit_id);
CREATE INDEX replacement_plan_tenant_id_planned_by_idx ON replacement_plan(tenant_id, planned_by);
CREATE INDEX replacement_plan_tenant_id_withdrawn_by_idx ON replacement_plan(tenant_id, withdrawn_by);
CREATE UNIQUE INDEX replacement_plan_stands_once ON replacement_plan (tenant_id, circuit_id) WHERE withdrawn_at IS NULL;
ALTER TABLE replacement_plan ADD CONSTRAINT replacement_plan_tenant_id_fkey FOREIGN KEY (tenant_id) REFERENCES tenant(id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE replacement_plan ADD CONSTRAINT replacement_plan_tenant_id_circuit_id_fkey FOREIGN KEY (tenant_id, circuit_id) REFERENCES circuit(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE replacement_plan ADD CONSTRAINT replacement_plan_tenant_id_planned_by_fkey FOREIGN KEY (tenant_id, planned_by) REFERENCES person(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE replacement_plan ADD CONSTRAINT replacement_plan_tenant_id_withdrawn_by_fkey FOREIGN KEY (tenant_id, withdrawn_by) REFERENCES person(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE replacement_plan ENABLE ROW LEVEL SECURITY, FORCE ROW LEVEL SECURITY;
CREATE POLICY own_tenant ON replacement_plan USING (tenant_id = (SELECT current_tenant())) WITH CHECK (tenant_id = (SELECT current_tenant()));
GRANT SELECT, INSERT, UPDATE (withdrawn_why, withdrawn_by, withdrawn_at) ON replacement_plan TO ullage_app;
