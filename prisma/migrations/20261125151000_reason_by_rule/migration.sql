-- A reason for each of our own rules that a placing bends: a reason for one is none for another. Before, one text stood for
-- all of them on each person's row.
CREATE TABLE visit_override (
  tenant_id uuid NOT NULL,
  visit_id uuid NOT NULL,
  rule text NOT NULL,
  reason text NOT NULL,
  given_by uuid,
  given_at timestamptz(3) NOT NULL,
  CONSTRAINT visit_override_pkey PRIMARY KEY (tenant_id,visit_id,rule),
  CONSTRAINT visit_override_rule CHECK (rule IN ('double-booked', 'outside-working-day'))
);
ALTER TABLE visit_override ADD CONSTRAINT visit_override_tenant_id_fkey FOREIGN KEY (tenant_id) REFERENCES tenant(id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE visit_override ADD CONSTRAINT visit_override_tenant_id_visit_id_fkey FOREIGN KEY (tenant_id, visit_id) REFERENCES visit(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;

-- The wall hides every row from its owner too, unless a tenant is set: it is let down for the copy, inside this transaction.
ALTER TABLE visit_person NO FORCE ROW LEVEL SECURITY;
INSERT INTO visit_override (tenant_id, visit_id, rule, reason, given_by, given_at)
SELECT DISTINCT ON (tenant_id, visit_id, rule) tenant_id, visit_id, rule, override_reason, placed_by, placed_at
FROM visit_person, unnest(string_to_array(override_rule, ' ')) AS rule
WHERE override_reason IS NOT NULL
ORDER BY tenant_id, visit_id, rule, placed_at;
ALTER TABLE visit_person FORCE ROW LEVEL SECURITY;
ALTER TABLE visit_person DROP COLUMN override_rule, DROP COLUMN override_reason;

ALTER TABLE visit_override ENABLE ROW LEVEL SECURITY, FORCE ROW LEVEL SECURITY;
CREATE POLICY own_tenant ON visit_override USING (tenant_id = (SELECT current_tenant())) WITH CHECK (tenant_id = (SELECT current_tenant()));
GRANT SELECT, INSERT, DELETE ON visit_override TO ullage_app;
