-- Walls between tenants, and what may never change.
--
-- The logins exist before any migration runs (`npm run migrate` makes them on a server of its own). None of them owns
-- a table or may bypass row-level security:
--   ullage_app    the api and the worker, one tenant per transaction
--   ullage_auth   the sign-in library, in its own schema
--   ullage_queue  the queue, in its own schema
--   ullage_relay  reads what is due in all tenants, changes nothing

REVOKE ALL ON SCHEMA public FROM PUBLIC;
GRANT USAGE ON SCHEMA public TO ullage_app, ullage_relay;

-- '' and NULL both mean "no tenant": after the first SET LOCAL of a session the setting is '' outside transactions.
CREATE FUNCTION current_tenant() RETURNS uuid LANGUAGE sql STABLE PARALLEL SAFE
  RETURN nullif(current_setting('app.tenant_id', true), '')::uuid;
REVOKE ALL ON FUNCTION current_tenant() FROM PUBLIC;
GRANT EXECUTE ON FUNCTION current_tenant() TO ullage_app, ullage_relay;


-- ---- Row-level security, forced: the owner is bound too.

ALTER TABLE tenant ENABLE ROW LEVEL SECURITY, FORCE ROW LEVEL SECURITY;
CREATE POLICY own_tenant ON tenant USING (id = (SELECT current_tenant())) WITH CHECK (id = (SELECT current_tenant()));
ALTER TABLE feed_counter ENABLE ROW LEVEL SECURITY, FORCE ROW LEVEL SECURITY;
CREATE POLICY own_tenant ON feed_counter USING (tenant_id = (SELECT current_tenant())) WITH CHECK (tenant_id = (SELECT current_tenant()));
ALTER TABLE feed ENABLE ROW LEVEL SECURITY, FORCE ROW LEVEL SECURITY;
CREATE POLICY own_tenant ON feed USING (tenant_id = (SELECT current_tenant())) WITH CHECK (tenant_id = (SELECT current_tenant()));
ALTER TABLE outbox ENABLE ROW LEVEL SECURITY, FORCE ROW LEVEL SECURITY;
CREATE POLICY own_tenant ON outbox USING (tenant_id = (SELECT current_tenant())) WITH CHECK (tenant_id = (SELECT current_tenant()));
ALTER TABLE audit ENABLE ROW LEVEL SECURITY, FORCE ROW LEVEL SECURITY;
CREATE POLICY own_tenant ON audit USING (tenant_id = (SELECT current_tenant())) WITH CHECK (tenant_id = (SELECT current_tenant()));
ALTER TABLE person ENABLE ROW LEVEL SECURITY, FORCE ROW LEVEL SECURITY;
CREATE POLICY own_tenant ON person USING (tenant_id = (SELECT current_tenant())) WITH CHECK (tenant_id = (SELECT current_tenant()));
ALTER TABLE certificate ENABLE ROW LEVEL SECURITY, FORCE ROW LEVEL SECURITY;
CREATE POLICY own_tenant ON certificate USING (tenant_id = (SELECT current_tenant())) WITH CHECK (tenant_id = (SELECT current_tenant()));
ALTER TABLE location ENABLE ROW LEVEL SECURITY, FORCE ROW LEVEL SECURITY;
CREATE POLICY own_tenant ON location USING (tenant_id = (SELECT current_tenant())) WITH CHECK (tenant_id = (SELECT current_tenant()));
ALTER TABLE instrument ENABLE ROW LEVEL SECURITY, FORCE ROW LEVEL SECURITY;
CREATE POLICY own_tenant ON instrument USING (tenant_id = (SELECT current_tenant())) WITH CHECK (tenant_id = (SELECT current_tenant()));
ALTER TABLE device ENABLE ROW LEVEL SECURITY, FORCE ROW LEVEL SECURITY;
CREATE POLICY own_tenant ON device USING (tenant_id = (SELECT current_tenant())) WITH CHECK (tenant_id = (SELECT current_tenant()));
ALTER TABLE command ENABLE ROW LEVEL SECURITY, FORCE ROW LEVEL SECURITY;
CREATE POLICY own_tenant ON command USING (tenant_id = (SELECT current_tenant())) WITH CHECK (tenant_id = (SELECT current_tenant()));
ALTER TABLE command_wait ENABLE ROW LEVEL SECURITY, FORCE ROW LEVEL SECURITY;
CREATE POLICY own_tenant ON command_wait USING (tenant_id = (SELECT current_tenant())) WITH CHECK (tenant_id = (SELECT current_tenant()));
ALTER TABLE attention ENABLE ROW LEVEL SECURITY, FORCE ROW LEVEL SECURITY;
CREATE POLICY own_tenant ON attention USING (tenant_id = (SELECT current_tenant())) WITH CHECK (tenant_id = (SELECT current_tenant()));
ALTER TABLE customer ENABLE ROW LEVEL SECURITY, FORCE ROW LEVEL SECURITY;
CREATE POLICY own_tenant ON customer USING (tenant_id = (SELECT current_tenant())) WITH CHECK (tenant_id = (SELECT current_tenant()));
ALTER TABLE facility ENABLE ROW LEVEL SECURITY, FORCE ROW LEVEL SECURITY;
CREATE POLICY own_tenant ON facility USING (tenant_id = (SELECT current_tenant())) WITH CHECK (tenant_id = (SELECT current_tenant()));
ALTER TABLE facility_method ENABLE ROW LEVEL SECURITY, FORCE ROW LEVEL SECURITY;
CREATE POLICY own_tenant ON facility_method USING (tenant_id = (SELECT current_tenant())) WITH CHECK (tenant_id = (SELECT current_tenant()));
ALTER TABLE site ENABLE ROW LEVEL SECURITY, FORCE ROW LEVEL SECURITY;
CREATE POLICY own_tenant ON site USING (tenant_id = (SELECT current_tenant())) WITH CHECK (tenant_id = (SELECT current_tenant()));
ALTER TABLE contact ENABLE ROW LEVEL SECURITY, FORCE ROW LEVEL SECURITY;
CREATE POLICY own_tenant ON contact USING (tenant_id = (SELECT current_tenant())) WITH CHECK (tenant_id = (SELECT current_tenant()));
ALTER TABLE unit ENABLE ROW LEVEL SECURITY, FORCE ROW LEVEL SECURITY;
CREATE POLICY own_tenant ON unit USING (tenant_id = (SELECT current_tenant())) WITH CHECK (tenant_id = (SELECT current_tenant()));
ALTER TABLE circuit ENABLE ROW LEVEL SECURITY, FORCE ROW LEVEL SECURITY;
CREATE POLICY own_tenant ON circuit USING (tenant_id = (SELECT current_tenant())) WITH CHECK (tenant_id = (SELECT current_tenant()));
ALTER TABLE full_charge ENABLE ROW LEVEL SECURITY, FORCE ROW LEVEL SECURITY;
CREATE POLICY own_tenant ON full_charge USING (tenant_id = (SELECT current_tenant())) WITH CHECK (tenant_id = (SELECT current_tenant()));
ALTER TABLE visit ENABLE ROW LEVEL SECURITY, FORCE ROW LEVEL SECURITY;
CREATE POLICY own_tenant ON visit USING (tenant_id = (SELECT current_tenant())) WITH CHECK (tenant_id = (SELECT current_tenant()));
ALTER TABLE visit_circuit ENABLE ROW LEVEL SECURITY, FORCE ROW LEVEL SECURITY;
CREATE POLICY own_tenant ON visit_circuit USING (tenant_id = (SELECT current_tenant())) WITH CHECK (tenant_id = (SELECT current_tenant()));
ALTER TABLE visit_person ENABLE ROW LEVEL SECURITY, FORCE ROW LEVEL SECURITY;
CREATE POLICY own_tenant ON visit_person USING (tenant_id = (SELECT current_tenant())) WITH CHECK (tenant_id = (SELECT current_tenant()));
ALTER TABLE visit_duty ENABLE ROW LEVEL SECURITY, FORCE ROW LEVEL SECURITY;
CREATE POLICY own_tenant ON visit_duty USING (tenant_id = (SELECT current_tenant())) WITH CHECK (tenant_id = (SELECT current_tenant()));
ALTER TABLE fact ENABLE ROW LEVEL SECURITY, FORCE ROW LEVEL SECURITY;
CREATE POLICY own_tenant ON fact USING (tenant_id = (SELECT current_tenant())) WITH CHECK (tenant_id = (SELECT current_tenant()));
ALTER TABLE fact_ref ENABLE ROW LEVEL SECURITY, FORCE ROW LEVEL SECURITY;
CREATE POLICY own_tenant ON fact_ref USING (tenant_id = (SELECT current_tenant())) WITH CHECK (tenant_id = (SELECT current_tenant()));
ALTER TABLE leak_point ENABLE ROW LEVEL SECURITY, FORCE ROW LEVEL SECURITY;
CREATE POLICY own_tenant ON leak_point USING (tenant_id = (SELECT current_tenant())) WITH CHECK (tenant_id = (SELECT current_tenant()));
ALTER TABLE cylinder ENABLE ROW LEVEL SECURITY, FORCE ROW LEVEL SECURITY;
CREATE POLICY own_tenant ON cylinder USING (tenant_id = (SELECT current_tenant())) WITH CHECK (tenant_id = (SELECT current_tenant()));
ALTER TABLE cylinder_tare ENABLE ROW LEVEL SECURITY, FORCE ROW LEVEL SECURITY;
CREATE POLICY own_tenant ON cylinder_tare USING (tenant_id = (SELECT current_tenant())) WITH CHECK (tenant_id = (SELECT current_tenant()));
ALTER TABLE weighing ENABLE ROW LEVEL SECURITY, FORCE ROW LEVEL SECURITY;
CREATE POLICY own_tenant ON weighing USING (tenant_id = (SELECT current_tenant())) WITH CHECK (tenant_id = (SELECT current_tenant()));
ALTER TABLE gas_account ENABLE ROW LEVEL SECURITY, FORCE ROW LEVEL SECURITY;
CREATE POLICY own_tenant ON gas_account USING (tenant_id = (SELECT current_tenant())) WITH CHECK (tenant_id = (SELECT current_tenant()));
ALTER TABLE movement ENABLE ROW LEVEL SECURITY, FORCE ROW LEVEL SECURITY;
CREATE POLICY own_tenant ON movement USING (tenant_id = (SELECT current_tenant())) WITH CHECK (tenant_id = (SELECT current_tenant()));
ALTER TABLE balance ENABLE ROW LEVEL SECURITY, FORCE ROW LEVEL SECURITY;
CREATE POLICY own_tenant ON balance USING (tenant_id = (SELECT current_tenant())) WITH CHECK (tenant_id = (SELECT current_tenant()));
ALTER TABLE taint ENABLE ROW LEVEL SECURITY, FORCE ROW LEVEL SECURITY;
CREATE POLICY own_tenant ON taint USING (tenant_id = (SELECT current_tenant())) WITH CHECK (tenant_id = (SELECT current_tenant()));
ALTER TABLE calculation ENABLE ROW LEVEL SECURITY, FORCE ROW LEVEL SECURITY;
CREATE POLICY own_tenant ON calculation USING (tenant_id = (SELECT current_tenant())) WITH CHECK (tenant_id = (SELECT current_tenant()));
ALTER TABLE episode ENABLE ROW LEVEL SECURITY, FORCE ROW LEVEL SECURITY;
CREATE POLICY own_tenant ON episode USING (tenant_id = (SELECT current_tenant())) WITH CHECK (tenant_id = (SELECT current_tenant()));
ALTER TABLE duty ENABLE ROW LEVEL SECURITY, FORCE ROW LEVEL SECURITY;
CREATE POLICY own_tenant ON duty USING (tenant_id = (SELECT current_tenant())) WITH CHECK (tenant_id = (SELECT current_tenant()));
ALTER TABLE duty_evidence ENABLE ROW LEVEL SECURITY, FORCE ROW LEVEL SECURITY;
CREATE POLICY own_tenant ON duty_evidence USING (tenant_id = (SELECT current_tenant())) WITH CHECK (tenant_id = (SELECT current_tenant()));
ALTER TABLE reminder ENABLE ROW LEVEL SECURITY, FORCE ROW LEVEL SECURITY;
CREATE POLICY own_tenant ON reminder USING (tenant_id = (SELECT current_tenant())) WITH CHECK (tenant_id = (SELECT current_tenant()));
ALTER TABLE notice ENABLE ROW LEVEL SECURITY, FORCE ROW LEVEL SECURITY;
CREATE POLICY own_tenant ON notice USING (tenant_id = (SELECT current_tenant())) WITH CHECK (tenant_id = (SELECT current_tenant()));

-- The relay sees what is due in every tenant, and no more. It takes ids from here and works inside the tenant.
CREATE POLICY due_everywhere ON outbox FOR SELECT TO ullage_relay USING (true);
CREATE POLICY due_everywhere ON reminder FOR SELECT TO ullage_relay USING (true);
CREATE POLICY due_everywhere ON feed_counter FOR SELECT TO ullage_relay USING (true);
GRANT SELECT ON outbox, reminder, feed_counter TO ullage_relay;

-- ---- Grants, verb by verb. What is a fact is never updated; nothing is truncated.
GRANT SELECT, UPDATE (name, locale, time_zone, mass_unit, pressure_unit, temperature_unit, gwp_set, shop_excess_kpa, country) ON tenant TO ullage_app;
GRANT SELECT, UPDATE (number) ON feed_counter TO ullage_app;
GRANT SELECT, INSERT ON feed TO ullage_app;
GRANT SELECT, INSERT, UPDATE ON outbox TO ullage_app;
GRANT SELECT, INSERT ON audit TO ullage_app;
GRANT SELECT, INSERT, UPDATE ON person TO ullage_app;
GRANT SELECT, INSERT, UPDATE ON certificate TO ullage_app;
GRANT SELECT, INSERT, UPDATE ON location TO ullage_app;
GRANT SELECT, INSERT, UPDATE ON instrument TO ullage_app;
GRANT SELECT, INSERT, UPDATE ON device TO ullage_app;
GRANT SELECT, INSERT, UPDATE ON command TO ullage_app;
GRANT SELECT, INSERT, UPDATE, DELETE ON command_wait TO ullage_app;
GRANT SELECT, INSERT, UPDATE ON attention TO ullage_app;
GRANT SELECT, INSERT, UPDATE ON customer TO ullage_app;
GRANT SELECT, INSERT, UPDATE ON facility TO ullage_app;
GRANT SELECT, INSERT ON facility_method TO ullage_app;
GRANT SELECT, INSERT, UPDATE ON site TO ullage_app;
GRANT SELECT, INSERT ON contact TO ullage_app;
GRANT SELECT, INSERT, UPDATE ON unit TO ullage_app;
GRANT SELECT, INSERT, UPDATE ON circuit TO ullage_app;
GRANT SELECT, INSERT ON full_charge TO ullage_app;
GRANT SELECT, INSERT, UPDATE ON visit TO ullage_app;
GRANT SELECT, INSERT ON visit_circuit TO ullage_app;
GRANT SELECT, INSERT, UPDATE, DELETE ON visit_person TO ullage_app;
GRANT SELECT, INSERT, UPDATE, DELETE ON visit_duty TO ullage_app;
GRANT SELECT, INSERT ON fact TO ullage_app;
GRANT SELECT, INSERT ON fact_ref TO ullage_app;
GRANT SELECT, INSERT, UPDATE ON leak_point TO ullage_app;
GRANT SELECT, INSERT, UPDATE ON cylinder TO ullage_app;
GRANT SELECT, INSERT ON cylinder_tare TO ullage_app;
GRANT SELECT, INSERT ON weighing TO ullage_app;
GRANT SELECT, INSERT, UPDATE (kind) ON gas_account TO ullage_app;
GRANT SELECT, INSERT ON movement TO ullage_app;
GRANT SELECT ON balance TO ullage_app;
GRANT SELECT, INSERT, UPDATE ON taint TO ullage_app;
GRANT SELECT, INSERT, UPDATE ON calculation TO ullage_app;
GRANT SELECT, INSERT, UPDATE ON episode TO ullage_app;
GRANT SELECT, INSERT, UPDATE ON duty TO ullage_app;
GRANT SELECT, INSERT, DELETE ON duty_evidence TO ullage_app;
GRANT SELECT, INSERT, UPDATE ON reminder TO ullage_app;
GRANT SELECT, INSERT, UPDATE ON notice TO ullage_app;
-- UPDATE (kind) on gas_account only lets a command lock the rows (SELECT FOR NO KEY UPDATE); the trigger below refuses a change.

-- ---- What must not happen.

ALTER TABLE movement
  ADD CONSTRAINT movement_has_mass CHECK (grams > 0),
  ADD CONSTRAINT movement_goes_somewhere CHECK (to_id <> from_id),
  ADD CONSTRAINT movement_derived_names_its_key CHECK ((derived_cause IS NULL) = (derived_key IS NULL)),
  ADD CONSTRAINT movement_measured CHECK (measured IN ('scale', 'flow-meter', 'nameplate', 'estimate', 'derived')),
  ADD CONSTRAINT movement_states CHECK (from_state IN ('new', 'recovered', 'recycled', 'reclaimed', 'in-use')
    AND to_state IN ('new', 'recovered', 'recycled', 'reclaimed', 'in-use'));
ALTER TABLE gas_account
  ADD CONSTRAINT gas_account_kind CHECK (kind IN ('cylinder', 'circuit', 'opening', 'supplier', 'other-party', 'reclaimer',
    'destroyer', 'atmosphere', 'service-loss', 'discrepancy')),
  ADD CONSTRAINT gas_account_names_its_thing CHECK ((kind = 'cylinder') = (cylinder_id IS NOT NULL)
    AND (kind = 'circuit') = (circuit_id IS NOT NULL));
ALTER TABLE fact
  ADD CONSTRAINT fact_has_one_time CHECK ((happened_at IS NULL) <> (happened_on IS NULL));
ALTER TABLE fact_ref
  ADD CONSTRAINT fact_ref_names_one_thing CHECK (num_nonnulls(cylinder_id, leak_point_id, instrument_id, person_id) = 1);
ALTER TABLE weighing
  ADD CONSTRAINT weighing_not_negative CHECK (grams >= 0 AND tare_grams >= 0),
  ADD CONSTRAINT weighing_role CHECK (role IN ('before', 'after'));
ALTER TABLE cylinder
  ADD CONSTRAINT cylinder_kind CHECK (kind IN ('disposable', 'refillable', 'recovery'));
ALTER TABLE visit
  ADD CONSTRAINT visit_state CHECK (state IN ('proposed', 'placed', 'on-site', 'done', 'cancelled')),
  ADD CONSTRAINT visit_placed_has_a_start CHECK (state NOT IN ('placed', 'on-site') OR planned_start IS NOT NULL),
  ADD CONSTRAINT visit_ends_after_it_starts CHECK (finished_at IS NULL OR started_at IS NULL OR finished_at >= started_at);
ALTER TABLE command
  ADD CONSTRAINT command_state CHECK (state IN ('applied', 'waiting', 'attention'));
ALTER TABLE duty
  ADD CONSTRAINT duty_state CHECK (state IN ('open', 'discharged', 'discharged-late', 'withdrawn', 'suspended', 'not-yet-known'));
ALTER TABLE circuit
  ADD CONSTRAINT circuit_use CHECK (use IN ('commercial-refrigeration', 'industrial-process-refrigeration', 'comfort-cooling',
    'refrigerated-transport', 'other'));
ALTER TABLE person
  ADD CONSTRAINT person_role CHECK (role IN ('owner', 'manager', 'dispatcher', 'warehouse', 'technician', 'auditor'));

-- A mistake in the books is answered by one more entry that names the first, never by a change.
CREATE FUNCTION refuse_change() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  RAISE EXCEPTION '% is append-only: correct it by a further entry', TG_TABLE_NAME USING ERRCODE = 'restrict_violation';
END $$;

CREATE TRIGGER movement_stands BEFORE UPDATE OR DELETE ON movement FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER movement_is_not_emptied BEFORE TRUNCATE ON movement FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
CREATE TRIGGER weighing_stands BEFORE UPDATE OR DELETE ON weighing FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER weighing_is_not_emptied BEFORE TRUNCATE ON weighing FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
CREATE TRIGGER fact_stands BEFORE UPDATE OR DELETE ON fact FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER fact_is_not_emptied BEFORE TRUNCATE ON fact FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
CREATE TRIGGER fact_ref_stands BEFORE UPDATE OR DELETE ON fact_ref FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER fact_ref_is_not_emptied BEFORE TRUNCATE ON fact_ref FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
CREATE TRIGGER audit_stands BEFORE UPDATE OR DELETE ON audit FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER audit_is_not_emptied BEFORE TRUNCATE ON audit FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
CREATE TRIGGER feed_stands BEFORE UPDATE OR DELETE ON feed FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER feed_is_not_emptied BEFORE TRUNCATE ON feed FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
CREATE TRIGGER cylinder_tare_stands BEFORE UPDATE OR DELETE ON cylinder_tare FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER cylinder_tare_is_not_emptied BEFORE TRUNCATE ON cylinder_tare FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
CREATE TRIGGER gas_account_stands BEFORE UPDATE OR DELETE ON gas_account FOR EACH ROW EXECUTE FUNCTION refuse_change();

-- Balances follow from movements and nobody else writes them: a movement without its balance cannot exist.
CREATE FUNCTION book_movement() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  INSERT INTO balance (tenant_id, account_id, refrigerant, owner, state, kind, grams)
  SELECT NEW.tenant_id, side.account_id, NEW.refrigerant, side.owner, side.state, account.kind, side.grams
  FROM (VALUES (NEW.from_id, NEW.from_owner, NEW.from_state, -NEW.grams::bigint),
               (NEW.to_id, NEW.to_owner, NEW.to_state, NEW.grams::bigint)) AS side (account_id, owner, state, grams)
  JOIN gas_account account ON account.tenant_id = NEW.tenant_id AND account.id = side.account_id
  ON CONFLICT (tenant_id, account_id, refrigerant, owner, state) DO UPDATE SET grams = balance.grams + excluded.grams;
  RETURN NULL;
END $$;
REVOKE ALL ON FUNCTION book_movement() FROM PUBLIC;
CREATE TRIGGER movement_is_booked AFTER INSERT ON movement FOR EACH ROW EXECUTE FUNCTION book_movement();

-- Looked at when the transaction ends: a late fact reverses and posts anew, and only the result has to be possible.
CREATE FUNCTION cylinder_not_below_zero() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF EXISTS (SELECT FROM balance WHERE tenant_id = NEW.tenant_id AND account_id = NEW.account_id
             AND refrigerant = NEW.refrigerant AND owner = NEW.owner AND state = NEW.state AND grams < 0) THEN
    RAISE EXCEPTION 'a cylinder cannot hold less than nothing' USING ERRCODE = 'check_violation', CONSTRAINT = 'cylinder_not_below_zero';
  END IF;
  RETURN NULL;
END $$;
CREATE CONSTRAINT TRIGGER cylinder_not_below_zero AFTER INSERT OR UPDATE ON balance DEFERRABLE INITIALLY DEFERRED
  FOR EACH ROW WHEN (NEW.kind = 'cylinder' AND NEW.grams < 0) EXECUTE FUNCTION cylinder_not_below_zero();

