-- Doubts follow the gas. They are derived by replay like postings: a row says by which movement a doubt came into the
-- account and from which row it comes, what its origin let in at most (so that shares that meet again never come to
-- more), and which air check cleared or confirmed it.
ALTER TABLE taint
  ADD COLUMN origin_high_grams decimal(18,6),
  ADD COLUMN via_fact_id uuid,
  ADD COLUMN confirmed_by_fact uuid;

-- Facts and rows that were only named by id so far.
ALTER TABLE taint ADD CONSTRAINT taint_tenant_id_via_fact_id_fkey FOREIGN KEY (tenant_id, via_fact_id) REFERENCES fact(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE taint ADD CONSTRAINT taint_tenant_id_cleared_by_fact_fkey FOREIGN KEY (tenant_id, cleared_by_fact) REFERENCES fact(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE taint ADD CONSTRAINT taint_tenant_id_confirmed_by_fact_fkey FOREIGN KEY (tenant_id, confirmed_by_fact) REFERENCES fact(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE taint ADD CONSTRAINT taint_tenant_id_spread_from_id_fkey FOREIGN KEY (tenant_id, spread_from_id) REFERENCES taint(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;
CREATE INDEX taint_tenant_id_via_fact_id_idx ON taint(tenant_id, via_fact_id);
CREATE INDEX taint_tenant_id_cleared_by_fact_idx ON taint(tenant_id, cleared_by_fact);
CREATE INDEX taint_tenant_id_confirmed_by_fact_idx ON taint(tenant_id, confirmed_by_fact);
CREATE INDEX taint_tenant_id_spread_from_id_idx ON taint(tenant_id, spread_from_id);

ALTER TABLE taint
  -- Either it arose here, or a movement brought it from a row of another account.
  ADD CONSTRAINT taint_came_by_a_movement CHECK ((via_fact_id IS NULL) = (spread_from_id IS NULL)),
  ADD CONSTRAINT taint_bounds CHECK (low_grams >= 0 AND high_grams >= 0);
-- A doubt stands once on an account for each way by which it came.
CREATE UNIQUE INDEX taint_stands_once ON taint (tenant_id, account_id, cause, from_fact_id, via_fact_id) NULLS NOT DISTINCT
  WHERE withdrawn_at IS NULL;

-- What a replay may change of a row; whose it is, what it suspects and by which fact it arose stay.
GRANT UPDATE (low_grams, high_grams, origin_high_grams, minutes, spread_from_id, confirmed_by_fact) ON taint TO ullage_app;
