-- The tables of a contractor. Every tenant-owned table has the primary key (tenant_id, id). What Prisma cannot say
-- (row-level security, grants, checks, triggers) follows in the next migration.

-- ---- tenancy: The contractor, the numbering of its changes and who did what.

-- one contractor company; id is the organisation's id in the sign-in library
CREATE TABLE tenant (
  id uuid NOT NULL,
  name text NOT NULL,
  locale text NOT NULL,
  time_zone text NOT NULL,
  mass_unit text NOT NULL,
  pressure_unit text NOT NULL,
  temperature_unit text NOT NULL,
  gwp_set text NOT NULL,
  shop_excess_kpa decimal(18,6) NOT NULL,
  country text NOT NULL,
  demo boolean NOT NULL,
  created_at timestamptz(3) NOT NULL,
  CONSTRAINT tenant_pkey PRIMARY KEY (id)
);

-- locked as the last statement of each transaction, so numbers are in commit order without gaps
CREATE TABLE feed_counter (
  tenant_id uuid NOT NULL,
  epoch integer NOT NULL,
  number bigint NOT NULL,
  CONSTRAINT feed_counter_pkey PRIMARY KEY (tenant_id)
);

-- one row per change; `audience` narrows a row to one person's device
CREATE TABLE feed (
  tenant_id uuid NOT NULL,
  epoch integer NOT NULL,
  number bigint NOT NULL,
  kind text NOT NULL,
  record_id uuid NOT NULL,
  op text NOT NULL,
  audience_id uuid,
  at timestamptz(3) NOT NULL,
  CONSTRAINT feed_pkey PRIMARY KEY (tenant_id,epoch,number)
);

-- effects that leave the database, written with the change that causes them
CREATE TABLE outbox (
  tenant_id uuid NOT NULL,
  id uuid NOT NULL,
  topic text NOT NULL,
  body jsonb NOT NULL,
  created_at timestamptz(3) NOT NULL,
  sent_at timestamptz(3),
  tries integer NOT NULL,
  last_error text,
  CONSTRAINT outbox_pkey PRIMARY KEY (tenant_id,id)
);
CREATE INDEX outbox_tenant_id_sent_at_created_at_idx ON outbox(tenant_id, sent_at, created_at);

-- who changed what, when and from where; append-only
CREATE TABLE audit (
  tenant_id uuid NOT NULL,
  id uuid NOT NULL,
  at timestamptz(3) NOT NULL,
  user_id uuid,
  command_id uuid,
  action text NOT NULL,
  record_kind text NOT NULL,
  record_id uuid,
  detail jsonb NOT NULL,
  address text,
  CONSTRAINT audit_pkey PRIMARY KEY (tenant_id,id)
);
CREATE INDEX audit_tenant_id_record_kind_record_id_idx ON audit(tenant_id, record_kind, record_id);
CREATE INDEX audit_tenant_id_at_idx ON audit(tenant_id, at);

-- ---- people: People, their certificates and what they carry.

-- a technician, an office member or a name from the past; not every person signs in
CREATE TABLE person (
  tenant_id uuid NOT NULL,
  id uuid NOT NULL,
  name text NOT NULL,
  email text,
  user_id uuid,
  role text,
  active boolean NOT NULL,
  created_at timestamptz(3) NOT NULL,
  CONSTRAINT person_pkey PRIMARY KEY (tenant_id,id)
);
CREATE INDEX person_tenant_id_email_idx ON person(tenant_id, email);
CREATE UNIQUE INDEX person_tenant_id_user_id_key ON person(tenant_id, user_id);

-- what a person may do by law
CREATE TABLE certificate (
  tenant_id uuid NOT NULL,
  id uuid NOT NULL,
  person_id uuid NOT NULL,
  scheme text NOT NULL,
  type text NOT NULL,
  registered_on date,
  ends_on date,
  CONSTRAINT certificate_pkey PRIMARY KEY (tenant_id,id)
);
CREATE INDEX certificate_tenant_id_person_id_idx ON certificate(tenant_id, person_id);

-- a warehouse, van or place where cylinders stand
CREATE TABLE location (
  tenant_id uuid NOT NULL,
  id uuid NOT NULL,
  kind text NOT NULL,
  name text NOT NULL,
  elevation_m decimal(18,6) NOT NULL,
  keeper_id uuid,
  CONSTRAINT location_pkey PRIMARY KEY (tenant_id,id)
);
CREATE INDEX location_tenant_id_keeper_id_idx ON location(tenant_id, keeper_id);

-- detector, gauge, scale, thermometer, vacuum gauge or recovery machine
CREATE TABLE instrument (
  tenant_id uuid NOT NULL,
  id uuid NOT NULL,
  kind text NOT NULL,
  tag text NOT NULL,
  sense_grams_per_year decimal(18,6),
  repeatability decimal(18,6),
  repeatability_unit text,
  carrier_id uuid,
  made_on date,
  retired_at timestamptz(3),
  CONSTRAINT instrument_pkey PRIMARY KEY (tenant_id,id)
);
CREATE INDEX instrument_tenant_id_carrier_id_idx ON instrument(tenant_id, carrier_id);
CREATE UNIQUE INDEX instrument_tenant_id_tag_key ON instrument(tenant_id, tag);

-- ---- sync: Commands as received and what became of them.

-- a phone or desk that sends commands
CREATE TABLE device (
  tenant_id uuid NOT NULL,
  id uuid NOT NULL,
  person_id uuid,
  name text,
  skew_ms integer,
  last_seen_at timestamptz(3) NOT NULL,
  CONSTRAINT device_pkey PRIMARY KEY (tenant_id,id)
);
CREATE INDEX device_tenant_id_person_id_idx ON device(tenant_id, person_id);

-- a fact reported from the field or a desk, with an id made by the device
CREATE TABLE command (
  tenant_id uuid NOT NULL,
  id uuid NOT NULL,
  kind text NOT NULL,
  device_id uuid,
  device_seq bigint,
  hash text NOT NULL,
  envelope jsonb NOT NULL,
  state text NOT NULL,
  answer jsonb,
  user_id uuid NOT NULL,
  happened_at timestamptz(3) NOT NULL,
  sent_at timestamptz(3),
  received_at timestamptz(3) NOT NULL,
  applied_at timestamptz(3),
  CONSTRAINT command_pkey PRIMARY KEY (tenant_id,id)
);
CREATE INDEX command_tenant_id_state_received_at_idx ON command(tenant_id, state, received_at);
CREATE UNIQUE INDEX command_tenant_id_device_id_device_seq_key ON command(tenant_id, device_id, device_seq);

-- a command that waits until another has arrived
CREATE TABLE command_wait (
  tenant_id uuid NOT NULL,
  command_id uuid NOT NULL,
  waits_for uuid NOT NULL,
  CONSTRAINT command_wait_pkey PRIMARY KEY (tenant_id,command_id,waits_for)
);
CREATE INDEX command_wait_tenant_id_waits_for_idx ON command_wait(tenant_id, waits_for);

-- what could not be applied as it stands, kept whole for a person
CREATE TABLE attention (
  tenant_id uuid NOT NULL,
  id uuid NOT NULL,
  kind text NOT NULL,
  command_id uuid,
  reason text NOT NULL,
  problem jsonb NOT NULL,
  subject_kind text,
  subject_id uuid,
  holder_id uuid,
  opened_at timestamptz(3) NOT NULL,
  closed_at timestamptz(3),
  closed_how text,
  closed_by uuid,
  CONSTRAINT attention_pkey PRIMARY KEY (tenant_id,id)
);
CREATE INDEX attention_tenant_id_closed_at_opened_at_idx ON attention(tenant_id, closed_at, opened_at);
CREATE INDEX attention_tenant_id_command_id_idx ON attention(tenant_id, command_id);
CREATE INDEX attention_tenant_id_holder_id_idx ON attention(tenant_id, holder_id);

-- ---- places: Customers, their sites and the equipment there.

-- who owns or operates the equipment
CREATE TABLE customer (
  tenant_id uuid NOT NULL,
  id uuid NOT NULL,
  name text NOT NULL,
  created_at timestamptz(3) NOT NULL,
  CONSTRAINT customer_pkey PRIMARY KEY (tenant_id,id)
);
CREATE INDEX customer_tenant_id_name_idx ON customer(tenant_id, name);

-- the law's operating facility: all its appliances use one leak-rate method
CREATE TABLE facility (
  tenant_id uuid NOT NULL,
  id uuid NOT NULL,
  customer_id uuid NOT NULL,
  name text NOT NULL,
  CONSTRAINT facility_pkey PRIMARY KEY (tenant_id,id)
);
CREATE INDEX facility_tenant_id_customer_id_idx ON facility(tenant_id, customer_id);

-- the leak-rate method of a facility since a day, with who decided and why
CREATE TABLE facility_method (
  tenant_id uuid NOT NULL,
  facility_id uuid NOT NULL,
  since_on date NOT NULL,
  method text NOT NULL,
  decided_by uuid,
  why text NOT NULL,
  CONSTRAINT facility_method_pkey PRIMARY KEY (tenant_id,facility_id,since_on)
);

-- a premises
CREATE TABLE site (
  tenant_id uuid NOT NULL,
  id uuid NOT NULL,
  customer_id uuid NOT NULL,
  facility_id uuid NOT NULL,
  name text NOT NULL,
  address text NOT NULL,
  time_zone text NOT NULL,
  elevation_m decimal(18,6) NOT NULL,
  latitude decimal(18,6),
  longitude decimal(18,6),
  country text NOT NULL,
  region text,
  access_notes text,
  created_at timestamptz(3) NOT NULL,
  CONSTRAINT site_pkey PRIMARY KEY (tenant_id,id)
);
CREATE INDEX site_tenant_id_customer_id_idx ON site(tenant_id, customer_id);
CREATE INDEX site_tenant_id_facility_id_idx ON site(tenant_id, facility_id);

-- whom to ask for at a site
CREATE TABLE contact (
  tenant_id uuid NOT NULL,
  id uuid NOT NULL,
  site_id uuid NOT NULL,
  name text NOT NULL,
  phone text,
  CONSTRAINT contact_pkey PRIMARY KEY (tenant_id,id)
);
CREATE INDEX contact_tenant_id_site_id_idx ON contact(tenant_id, site_id);

-- a machine at a site
CREATE TABLE unit (
  tenant_id uuid NOT NULL,
  id uuid NOT NULL,
  site_id uuid NOT NULL,
  tag text NOT NULL,
  description text,
  created_at timestamptz(3) NOT NULL,
  CONSTRAINT unit_pkey PRIMARY KEY (tenant_id,id)
);
CREATE UNIQUE INDEX unit_tenant_id_site_id_tag_key ON unit(tenant_id, site_id, tag);

-- one independent refrigerant circuit: the law's appliance
CREATE TABLE circuit (
  tenant_id uuid NOT NULL,
  id uuid NOT NULL,
  unit_id uuid NOT NULL,
  letter text NOT NULL,
  refrigerant text NOT NULL,
  use text NOT NULL,
  equipment text NOT NULL,
  subsector text,
  decided_by uuid,
  decision_why text,
  installed_on date,
  closed_at timestamptz(3),
  CONSTRAINT circuit_pkey PRIMARY KEY (tenant_id,id)
);
CREATE UNIQUE INDEX circuit_tenant_id_unit_id_letter_key ON circuit(tenant_id, unit_id, letter);

-- dated history of the mass when correctly charged
CREATE TABLE full_charge (
  tenant_id uuid NOT NULL,
  id uuid NOT NULL,
  circuit_id uuid NOT NULL,
  from_on date NOT NULL,
  value text NOT NULL,
  unit text NOT NULL,
  method text NOT NULL,
  low_value text,
  high_value text,
  evidence text,
  decided_by uuid,
  recorded_at timestamptz(3) NOT NULL,
  CONSTRAINT full_charge_pkey PRIMARY KEY (tenant_id,id)
);
CREATE INDEX full_charge_tenant_id_circuit_id_from_on_idx ON full_charge(tenant_id, circuit_id, from_on);

-- ---- visits: Attendances and who is placed on them.

-- one attendance at a site
CREATE TABLE visit (
  tenant_id uuid NOT NULL,
  id uuid NOT NULL,
  site_id uuid NOT NULL,
  purpose text NOT NULL,
  state text NOT NULL,
  version integer NOT NULL,
  symptom text,
  notes text,
  planned_start timestamptz(3),
  planned_minutes integer NOT NULL,
  opens_at timestamptz(3),
  due_at timestamptz(3),
  started_at timestamptz(3),
  finished_at timestamptz(3),
  created_at timestamptz(3) NOT NULL,
  CONSTRAINT visit_pkey PRIMARY KEY (tenant_id,id)
);
CREATE INDEX visit_tenant_id_state_planned_start_idx ON visit(tenant_id, state, planned_start);
CREATE INDEX visit_tenant_id_site_id_idx ON visit(tenant_id, site_id);

-- the circuits a visit is about
CREATE TABLE visit_circuit (
  tenant_id uuid NOT NULL,
  visit_id uuid NOT NULL,
  circuit_id uuid NOT NULL,
  CONSTRAINT visit_circuit_pkey PRIMARY KEY (tenant_id,visit_id,circuit_id)
);
CREATE INDEX visit_circuit_tenant_id_circuit_id_idx ON visit_circuit(tenant_id, circuit_id);

-- who goes, and the reason when a rule of ours was bent
CREATE TABLE visit_person (
  tenant_id uuid NOT NULL,
  visit_id uuid NOT NULL,
  person_id uuid NOT NULL,
  override_rule text,
  override_reason text,
  placed_by uuid,
  placed_at timestamptz(3) NOT NULL,
  CONSTRAINT visit_person_pkey PRIMARY KEY (tenant_id,visit_id,person_id)
);
CREATE INDEX visit_person_tenant_id_person_id_idx ON visit_person(tenant_id, person_id);

-- the duties a return visit is to discharge; flagged when the duty has gone
CREATE TABLE visit_duty (
  tenant_id uuid NOT NULL,
  visit_id uuid NOT NULL,
  duty_id uuid NOT NULL,
  flag text,
  CONSTRAINT visit_duty_pkey PRIMARY KEY (tenant_id,visit_id,duty_id)
);
CREATE INDEX visit_duty_tenant_id_duty_id_idx ON visit_duty(tenant_id, duty_id);

-- ---- facts: What happened, append-only, and what it refers to.

-- one append-only table for what happened; the body's shape follows from the kind
CREATE TABLE fact (
  tenant_id uuid NOT NULL,
  id uuid NOT NULL,
  kind text NOT NULL,
  visit_id uuid,
  circuit_id uuid,
  happened_at timestamptz(3),
  happened_on date,
  seq integer NOT NULL,
  recorded_at timestamptz(3) NOT NULL,
  by_person_id uuid,
  body jsonb NOT NULL,
  corrects_id uuid,
  command_id uuid,
  CONSTRAINT fact_pkey PRIMARY KEY (tenant_id,id)
);
CREATE INDEX fact_tenant_id_circuit_id_happened_at_idx ON fact(tenant_id, circuit_id, happened_at);
CREATE INDEX fact_tenant_id_visit_id_happened_at_idx ON fact(tenant_id, visit_id, happened_at);
CREATE INDEX fact_tenant_id_corrects_id_idx ON fact(tenant_id, corrects_id);
CREATE INDEX fact_tenant_id_by_person_id_idx ON fact(tenant_id, by_person_id);

-- what a fact refers to, by foreign key: what it touched can be recalled
CREATE TABLE fact_ref (
  tenant_id uuid NOT NULL,
  fact_id uuid NOT NULL,
  role text NOT NULL,
  ordinal integer NOT NULL,
  cylinder_id uuid,
  leak_point_id uuid,
  instrument_id uuid,
  person_id uuid,
  CONSTRAINT fact_ref_pkey PRIMARY KEY (tenant_id,fact_id,role,ordinal)
);
CREATE INDEX fact_ref_tenant_id_cylinder_id_idx ON fact_ref(tenant_id, cylinder_id);
CREATE INDEX fact_ref_tenant_id_leak_point_id_idx ON fact_ref(tenant_id, leak_point_id);
CREATE INDEX fact_ref_tenant_id_instrument_id_idx ON fact_ref(tenant_id, instrument_id);
CREATE INDEX fact_ref_tenant_id_person_id_idx ON fact_ref(tenant_id, person_id);

-- a located leak
CREATE TABLE leak_point (
  tenant_id uuid NOT NULL,
  id uuid NOT NULL,
  circuit_id uuid NOT NULL,
  visit_id uuid,
  number integer NOT NULL,
  place text NOT NULL,
  where_text text NOT NULL,
  low_grams_per_year decimal(18,6),
  high_grams_per_year decimal(18,6),
  state text NOT NULL,
  found_at timestamptz(3) NOT NULL,
  CONSTRAINT leak_point_pkey PRIMARY KEY (tenant_id,id)
);
CREATE INDEX leak_point_tenant_id_visit_id_idx ON leak_point(tenant_id, visit_id);
CREATE UNIQUE INDEX leak_point_tenant_id_circuit_id_number_key ON leak_point(tenant_id, circuit_id, number);

-- ---- gas: Cylinders and the double-entry book of grams.

-- disposable, refillable or recovery cylinder; two phones may register one, so the serial is not unique
CREATE TABLE cylinder (
  tenant_id uuid NOT NULL,
  id uuid NOT NULL,
  kind text NOT NULL,
  specification text NOT NULL,
  serial text NOT NULL,
  label text,
  water_capacity_kg decimal(18,6) NOT NULL,
  service_pressure_kpa_gauge decimal(18,6),
  made_month text,
  tested_month text,
  test_kind text,
  owner_customer_id uuid,
  dedicated_to text,
  gas_state text,
  location_id uuid,
  merged_into_id uuid,
  created_at timestamptz(3) NOT NULL,
  CONSTRAINT cylinder_pkey PRIMARY KEY (tenant_id,id)
);
CREATE INDEX cylinder_tenant_id_serial_idx ON cylinder(tenant_id, serial);
CREATE INDEX cylinder_tenant_id_location_id_idx ON cylinder(tenant_id, location_id);
CREATE INDEX cylinder_tenant_id_merged_into_id_idx ON cylinder(tenant_id, merged_into_id);
CREATE INDEX cylinder_tenant_id_owner_customer_id_idx ON cylinder(tenant_id, owner_customer_id);

-- tare of a cylinder since an instant
CREATE TABLE cylinder_tare (
  tenant_id uuid NOT NULL,
  id uuid NOT NULL,
  cylinder_id uuid NOT NULL,
  value text NOT NULL,
  unit text NOT NULL,
  grams integer NOT NULL,
  from_at timestamptz(3) NOT NULL,
  recorded_at timestamptz(3) NOT NULL,
  CONSTRAINT cylinder_tare_pkey PRIMARY KEY (tenant_id,id)
);
CREATE INDEX cylinder_tare_tenant_id_cylinder_id_from_at_idx ON cylinder_tare(tenant_id, cylinder_id, from_at);

-- a fact: what a scale showed
CREATE TABLE weighing (
  tenant_id uuid NOT NULL,
  id uuid NOT NULL,
  cylinder_id uuid NOT NULL,
  fact_id uuid NOT NULL,
  role text NOT NULL,
  value text NOT NULL,
  unit text NOT NULL,
  grams integer NOT NULL,
  tare_grams integer NOT NULL,
  scale_id uuid,
  at timestamptz(3) NOT NULL,
  CONSTRAINT weighing_pkey PRIMARY KEY (tenant_id,id)
);
CREATE INDEX weighing_tenant_id_cylinder_id_at_idx ON weighing(tenant_id, cylinder_id, at);
CREATE INDEX weighing_tenant_id_fact_id_idx ON weighing(tenant_id, fact_id);
CREATE INDEX weighing_tenant_id_scale_id_idx ON weighing(tenant_id, scale_id);

-- a cylinder, a circuit or one of the outside accounts
CREATE TABLE gas_account (
  tenant_id uuid NOT NULL,
  id uuid NOT NULL,
  kind text NOT NULL,
  cylinder_id uuid,
  circuit_id uuid,
  CONSTRAINT gas_account_pkey PRIMARY KEY (tenant_id,id)
);
CREATE UNIQUE INDEX gas_account_tenant_id_cylinder_id_key ON gas_account(tenant_id, cylinder_id);
CREATE UNIQUE INDEX gas_account_tenant_id_circuit_id_key ON gas_account(tenant_id, circuit_id);

-- one immutable posting
CREATE TABLE movement (
  tenant_id uuid NOT NULL,
  id uuid NOT NULL,
  refrigerant text NOT NULL,
  grams integer NOT NULL,
  from_id uuid NOT NULL,
  to_id uuid NOT NULL,
  from_owner uuid NOT NULL,
  from_state text NOT NULL,
  to_owner uuid NOT NULL,
  to_state text NOT NULL,
  happened_at timestamptz(3) NOT NULL,
  recorded_at timestamptz(3) NOT NULL,
  fact_id uuid,
  visit_id uuid,
  measured text NOT NULL,
  derived_cause text,
  derived_key text,
  corrects_id uuid,
  seq integer NOT NULL,
  CONSTRAINT movement_pkey PRIMARY KEY (tenant_id,id)
);
CREATE INDEX movement_tenant_id_from_id_happened_at_idx ON movement(tenant_id, from_id, happened_at);
CREATE INDEX movement_tenant_id_to_id_happened_at_idx ON movement(tenant_id, to_id, happened_at);
CREATE INDEX movement_tenant_id_fact_id_idx ON movement(tenant_id, fact_id);
CREATE INDEX movement_tenant_id_visit_id_idx ON movement(tenant_id, visit_id);
CREATE UNIQUE INDEX movement_tenant_id_corrects_id_key ON movement(tenant_id, corrects_id);

-- kept in the transaction of each movement
CREATE TABLE balance (
  tenant_id uuid NOT NULL,
  account_id uuid NOT NULL,
  refrigerant text NOT NULL,
  owner uuid NOT NULL,
  state text NOT NULL,
  kind text NOT NULL,
  grams bigint NOT NULL,
  CONSTRAINT balance_pkey PRIMARY KEY (tenant_id,account_id,refrigerant,owner,state)
);

-- a doubt about the gas in an account, with its cause
CREATE TABLE taint (
  tenant_id uuid NOT NULL,
  id uuid NOT NULL,
  account_id uuid NOT NULL,
  cause text NOT NULL,
  low_grams decimal(18,6),
  high_grams decimal(18,6),
  minutes decimal(18,6),
  from_fact_id uuid NOT NULL,
  visit_id uuid,
  cleared_by_fact uuid,
  withdrawn_at timestamptz(3),
  spread_from_id uuid,
  created_at timestamptz(3) NOT NULL,
  CONSTRAINT taint_pkey PRIMARY KEY (tenant_id,id)
);
CREATE INDEX taint_tenant_id_account_id_idx ON taint(tenant_id, account_id);
CREATE INDEX taint_tenant_id_from_fact_id_idx ON taint(tenant_id, from_fact_id);
CREATE INDEX taint_tenant_id_visit_id_idx ON taint(tenant_id, visit_id);

-- ---- law: What the rulebooks concluded, with its reasoning.

-- one leak-rate calculation; a corrected fact makes a new one beside the old
CREATE TABLE calculation (
  tenant_id uuid NOT NULL,
  id uuid NOT NULL,
  circuit_id uuid NOT NULL,
  number integer NOT NULL,
  rulebook text NOT NULL,
  rulebook_version text NOT NULL,
  method text NOT NULL,
  on_day date NOT NULL,
  at timestamptz(3) NOT NULL,
  input jsonb NOT NULL,
  result jsonb NOT NULL,
  rate_text text NOT NULL,
  over boolean NOT NULL,
  standing boolean NOT NULL,
  made_at timestamptz(3) NOT NULL,
  CONSTRAINT calculation_pkey PRIMARY KEY (tenant_id,id)
);
CREATE UNIQUE INDEX calculation_tenant_id_circuit_id_rulebook_number_key ON calculation(tenant_id, circuit_id, rulebook, number);

-- a leak episode: opened by the first addition over the threshold
CREATE TABLE episode (
  tenant_id uuid NOT NULL,
  circuit_id uuid NOT NULL,
  rulebook text NOT NULL,
  key text NOT NULL,
  opened_at timestamptz(3) NOT NULL,
  closed_at timestamptz(3),
  state text NOT NULL,
  updated_at timestamptz(3) NOT NULL,
  CONSTRAINT episode_pkey PRIMARY KEY (tenant_id,circuit_id,rulebook,key)
);

-- what a rulebook demands, until when, of whom
CREATE TABLE duty (
  tenant_id uuid NOT NULL,
  id uuid NOT NULL,
  circuit_id uuid NOT NULL,
  rulebook text NOT NULL,
  kind text NOT NULL,
  key text NOT NULL,
  clause text NOT NULL,
  responsible text NOT NULL,
  since_at timestamptz(3) NOT NULL,
  opens_at timestamptz(3),
  due_at timestamptz(3),
  due_on date,
  provisional boolean NOT NULL,
  state text NOT NULL,
  why text NOT NULL,
  flags jsonb NOT NULL,
  leak_point_ids jsonb NOT NULL,
  episode text NOT NULL,
  every_months integer,
  rulebook_version text NOT NULL,
  version integer NOT NULL,
  updated_at timestamptz(3) NOT NULL,
  CONSTRAINT duty_pkey PRIMARY KEY (tenant_id,id)
);
CREATE INDEX duty_tenant_id_state_due_at_idx ON duty(tenant_id, state, due_at);
CREATE UNIQUE INDEX duty_tenant_id_circuit_id_key_key ON duty(tenant_id, circuit_id, key);

-- which facts discharged it
CREATE TABLE duty_evidence (
  tenant_id uuid NOT NULL,
  duty_id uuid NOT NULL,
  fact_id uuid NOT NULL,
  CONSTRAINT duty_evidence_pkey PRIMARY KEY (tenant_id,duty_id,fact_id)
);
CREATE INDEX duty_evidence_tenant_id_fact_id_idx ON duty_evidence(tenant_id, fact_id);

-- one reminder per duty, stage and due instant: a moved date makes a new one
CREATE TABLE reminder (
  tenant_id uuid NOT NULL,
  duty_id uuid NOT NULL,
  stage integer NOT NULL,
  due_epoch bigint NOT NULL,
  plan_at timestamptz(3) NOT NULL,
  reminded_at timestamptz(3),
  dropped_at timestamptz(3),
  CONSTRAINT reminder_pkey PRIMARY KEY (tenant_id,duty_id,stage,due_epoch)
);
CREATE INDEX reminder_tenant_id_reminded_at_plan_at_idx ON reminder(tenant_id, reminded_at, plan_at);

-- something a person or a role is told on the board
CREATE TABLE notice (
  tenant_id uuid NOT NULL,
  id uuid NOT NULL,
  person_id uuid,
  role text,
  kind text NOT NULL,
  duty_id uuid,
  body jsonb NOT NULL,
  at timestamptz(3) NOT NULL,
  read_at timestamptz(3),
  CONSTRAINT notice_pkey PRIMARY KEY (tenant_id,id)
);
CREATE INDEX notice_tenant_id_role_at_idx ON notice(tenant_id, role, at);
CREATE INDEX notice_tenant_id_person_id_idx ON notice(tenant_id, person_id);
CREATE INDEX notice_tenant_id_duty_id_idx ON notice(tenant_id, duty_id);

-- ---- Foreign keys: each carries tenant_id, so that no row can point at another tenant's.

ALTER TABLE feed_counter ADD CONSTRAINT feed_counter_tenant_id_fkey FOREIGN KEY (tenant_id) REFERENCES tenant(id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE feed ADD CONSTRAINT feed_tenant_id_fkey FOREIGN KEY (tenant_id) REFERENCES tenant(id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE outbox ADD CONSTRAINT outbox_tenant_id_fkey FOREIGN KEY (tenant_id) REFERENCES tenant(id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE audit ADD CONSTRAINT audit_tenant_id_fkey FOREIGN KEY (tenant_id) REFERENCES tenant(id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE person ADD CONSTRAINT person_tenant_id_fkey FOREIGN KEY (tenant_id) REFERENCES tenant(id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE certificate ADD CONSTRAINT certificate_tenant_id_fkey FOREIGN KEY (tenant_id) REFERENCES tenant(id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE certificate ADD CONSTRAINT certificate_tenant_id_person_id_fkey FOREIGN KEY (tenant_id, person_id) REFERENCES person(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE location ADD CONSTRAINT location_tenant_id_fkey FOREIGN KEY (tenant_id) REFERENCES tenant(id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE location ADD CONSTRAINT location_tenant_id_keeper_id_fkey FOREIGN KEY (tenant_id, keeper_id) REFERENCES person(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE instrument ADD CONSTRAINT instrument_tenant_id_fkey FOREIGN KEY (tenant_id) REFERENCES tenant(id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE instrument ADD CONSTRAINT instrument_tenant_id_carrier_id_fkey FOREIGN KEY (tenant_id, carrier_id) REFERENCES person(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE device ADD CONSTRAINT device_tenant_id_fkey FOREIGN KEY (tenant_id) REFERENCES tenant(id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE device ADD CONSTRAINT device_tenant_id_person_id_fkey FOREIGN KEY (tenant_id, person_id) REFERENCES person(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE command ADD CONSTRAINT command_tenant_id_fkey FOREIGN KEY (tenant_id) REFERENCES tenant(id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE command_wait ADD CONSTRAINT command_wait_tenant_id_fkey FOREIGN KEY (tenant_id) REFERENCES tenant(id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE command_wait ADD CONSTRAINT command_wait_tenant_id_command_id_fkey FOREIGN KEY (tenant_id, command_id) REFERENCES command(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE attention ADD CONSTRAINT attention_tenant_id_fkey FOREIGN KEY (tenant_id) REFERENCES tenant(id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE attention ADD CONSTRAINT attention_tenant_id_command_id_fkey FOREIGN KEY (tenant_id, command_id) REFERENCES command(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE attention ADD CONSTRAINT attention_tenant_id_holder_id_fkey FOREIGN KEY (tenant_id, holder_id) REFERENCES person(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE customer ADD CONSTRAINT customer_tenant_id_fkey FOREIGN KEY (tenant_id) REFERENCES tenant(id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE facility ADD CONSTRAINT facility_tenant_id_fkey FOREIGN KEY (tenant_id) REFERENCES tenant(id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE facility ADD CONSTRAINT facility_tenant_id_customer_id_fkey FOREIGN KEY (tenant_id, customer_id) REFERENCES customer(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE facility_method ADD CONSTRAINT facility_method_tenant_id_fkey FOREIGN KEY (tenant_id) REFERENCES tenant(id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE facility_method ADD CONSTRAINT facility_method_tenant_id_facility_id_fkey FOREIGN KEY (tenant_id, facility_id) REFERENCES facility(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE site ADD CONSTRAINT site_tenant_id_fkey FOREIGN KEY (tenant_id) REFERENCES tenant(id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE site ADD CONSTRAINT site_tenant_id_customer_id_fkey FOREIGN KEY (tenant_id, customer_id) REFERENCES customer(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE site ADD CONSTRAINT site_tenant_id_facility_id_fkey FOREIGN KEY (tenant_id, facility_id) REFERENCES facility(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE contact ADD CONSTRAINT contact_tenant_id_fkey FOREIGN KEY (tenant_id) REFERENCES tenant(id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE contact ADD CONSTRAINT contact_tenant_id_site_id_fkey FOREIGN KEY (tenant_id, site_id) REFERENCES site(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE unit ADD CONSTRAINT unit_tenant_id_fkey FOREIGN KEY (tenant_id) REFERENCES tenant(id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE unit ADD CONSTRAINT unit_tenant_id_site_id_fkey FOREIGN KEY (tenant_id, site_id) REFERENCES site(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE circuit ADD CONSTRAINT circuit_tenant_id_fkey FOREIGN KEY (tenant_id) REFERENCES tenant(id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE circuit ADD CONSTRAINT circuit_tenant_id_unit_id_fkey FOREIGN KEY (tenant_id, unit_id) REFERENCES unit(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE full_charge ADD CONSTRAINT full_charge_tenant_id_fkey FOREIGN KEY (tenant_id) REFERENCES tenant(id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE full_charge ADD CONSTRAINT full_charge_tenant_id_circuit_id_fkey FOREIGN KEY (tenant_id, circuit_id) REFERENCES circuit(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE visit ADD CONSTRAINT visit_tenant_id_fkey FOREIGN KEY (tenant_id) REFERENCES tenant(id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE visit ADD CONSTRAINT visit_tenant_id_site_id_fkey FOREIGN KEY (tenant_id, site_id) REFERENCES site(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE visit_circuit ADD CONSTRAINT visit_circuit_tenant_id_fkey FOREIGN KEY (tenant_id) REFERENCES tenant(id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE visit_circuit ADD CONSTRAINT visit_circuit_tenant_id_visit_id_fkey FOREIGN KEY (tenant_id, visit_id) REFERENCES visit(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE visit_circuit ADD CONSTRAINT visit_circuit_tenant_id_circuit_id_fkey FOREIGN KEY (tenant_id, circuit_id) REFERENCES circuit(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE visit_person ADD CONSTRAINT visit_person_tenant_id_fkey FOREIGN KEY (tenant_id) REFERENCES tenant(id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE visit_person ADD CONSTRAINT visit_person_tenant_id_visit_id_fkey FOREIGN KEY (tenant_id, visit_id) REFERENCES visit(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE visit_person ADD CONSTRAINT visit_person_tenant_id_person_id_fkey FOREIGN KEY (tenant_id, person_id) REFERENCES person(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE visit_duty ADD CONSTRAINT visit_duty_tenant_id_fkey FOREIGN KEY (tenant_id) REFERENCES tenant(id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE visit_duty ADD CONSTRAINT visit_duty_tenant_id_visit_id_fkey FOREIGN KEY (tenant_id, visit_id) REFERENCES visit(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE visit_duty ADD CONSTRAINT visit_duty_tenant_id_duty_id_fkey FOREIGN KEY (tenant_id, duty_id) REFERENCES duty(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE fact ADD CONSTRAINT fact_tenant_id_fkey FOREIGN KEY (tenant_id) REFERENCES tenant(id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE fact ADD CONSTRAINT fact_tenant_id_visit_id_fkey FOREIGN KEY (tenant_id, visit_id) REFERENCES visit(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE fact ADD CONSTRAINT fact_tenant_id_circuit_id_fkey FOREIGN KEY (tenant_id, circuit_id) REFERENCES circuit(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE fact ADD CONSTRAINT fact_tenant_id_by_person_id_fkey FOREIGN KEY (tenant_id, by_person_id) REFERENCES person(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE fact ADD CONSTRAINT fact_tenant_id_corrects_id_fkey FOREIGN KEY (tenant_id, corrects_id) REFERENCES fact(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE fact_ref ADD CONSTRAINT fact_ref_tenant_id_fkey FOREIGN KEY (tenant_id) REFERENCES tenant(id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE fact_ref ADD CONSTRAINT fact_ref_tenant_id_cylinder_id_fkey FOREIGN KEY (tenant_id, cylinder_id) REFERENCES cylinder(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE fact_ref ADD CONSTRAINT fact_ref_tenant_id_leak_point_id_fkey FOREIGN KEY (tenant_id, leak_point_id) REFERENCES leak_point(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE fact_ref ADD CONSTRAINT fact_ref_tenant_id_instrument_id_fkey FOREIGN KEY (tenant_id, instrument_id) REFERENCES instrument(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE fact_ref ADD CONSTRAINT fact_ref_tenant_id_person_id_fkey FOREIGN KEY (tenant_id, person_id) REFERENCES person(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE fact_ref ADD CONSTRAINT fact_ref_tenant_id_fact_id_fkey FOREIGN KEY (tenant_id, fact_id) REFERENCES fact(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE leak_point ADD CONSTRAINT leak_point_tenant_id_fkey FOREIGN KEY (tenant_id) REFERENCES tenant(id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE leak_point ADD CONSTRAINT leak_point_tenant_id_circuit_id_fkey FOREIGN KEY (tenant_id, circuit_id) REFERENCES circuit(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE leak_point ADD CONSTRAINT leak_point_tenant_id_visit_id_fkey FOREIGN KEY (tenant_id, visit_id) REFERENCES visit(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE cylinder ADD CONSTRAINT cylinder_tenant_id_fkey FOREIGN KEY (tenant_id) REFERENCES tenant(id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE cylinder ADD CONSTRAINT cylinder_tenant_id_owner_customer_id_fkey FOREIGN KEY (tenant_id, owner_customer_id) REFERENCES customer(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE cylinder ADD CONSTRAINT cylinder_tenant_id_location_id_fkey FOREIGN KEY (tenant_id, location_id) REFERENCES location(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE cylinder ADD CONSTRAINT cylinder_tenant_id_merged_into_id_fkey FOREIGN KEY (tenant_id, merged_into_id) REFERENCES cylinder(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE cylinder_tare ADD CONSTRAINT cylinder_tare_tenant_id_fkey FOREIGN KEY (tenant_id) REFERENCES tenant(id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE cylinder_tare ADD CONSTRAINT cylinder_tare_tenant_id_cylinder_id_fkey FOREIGN KEY (tenant_id, cylinder_id) REFERENCES cylinder(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE weighing ADD CONSTRAINT weighing_tenant_id_fkey FOREIGN KEY (tenant_id) REFERENCES tenant(id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE weighing ADD CONSTRAINT weighing_tenant_id_cylinder_id_fkey FOREIGN KEY (tenant_id, cylinder_id) REFERENCES cylinder(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE weighing ADD CONSTRAINT weighing_tenant_id_fact_id_fkey FOREIGN KEY (tenant_id, fact_id) REFERENCES fact(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE weighing ADD CONSTRAINT weighing_tenant_id_scale_id_fkey FOREIGN KEY (tenant_id, scale_id) REFERENCES instrument(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE gas_account ADD CONSTRAINT gas_account_tenant_id_fkey FOREIGN KEY (tenant_id) REFERENCES tenant(id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE gas_account ADD CONSTRAINT gas_account_tenant_id_cylinder_id_fkey FOREIGN KEY (tenant_id, cylinder_id) REFERENCES cylinder(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE gas_account ADD CONSTRAINT gas_account_tenant_id_circuit_id_fkey FOREIGN KEY (tenant_id, circuit_id) REFERENCES circuit(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE movement ADD CONSTRAINT movement_tenant_id_fkey FOREIGN KEY (tenant_id) REFERENCES tenant(id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE movement ADD CONSTRAINT movement_tenant_id_from_id_fkey FOREIGN KEY (tenant_id, from_id) REFERENCES gas_account(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE movement ADD CONSTRAINT movement_tenant_id_to_id_fkey FOREIGN KEY (tenant_id, to_id) REFERENCES gas_account(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE movement ADD CONSTRAINT movement_tenant_id_fact_id_fkey FOREIGN KEY (tenant_id, fact_id) REFERENCES fact(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE movement ADD CONSTRAINT movement_tenant_id_visit_id_fkey FOREIGN KEY (tenant_id, visit_id) REFERENCES visit(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE movement ADD CONSTRAINT movement_tenant_id_corrects_id_fkey FOREIGN KEY (tenant_id, corrects_id) REFERENCES movement(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE balance ADD CONSTRAINT balance_tenant_id_fkey FOREIGN KEY (tenant_id) REFERENCES tenant(id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE balance ADD CONSTRAINT balance_tenant_id_account_id_fkey FOREIGN KEY (tenant_id, account_id) REFERENCES gas_account(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE taint ADD CONSTRAINT taint_tenant_id_fkey FOREIGN KEY (tenant_id) REFERENCES tenant(id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE taint ADD CONSTRAINT taint_tenant_id_account_id_fkey FOREIGN KEY (tenant_id, account_id) REFERENCES gas_account(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE taint ADD CONSTRAINT taint_tenant_id_from_fact_id_fkey FOREIGN KEY (tenant_id, from_fact_id) REFERENCES fact(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE taint ADD CONSTRAINT taint_tenant_id_visit_id_fkey FOREIGN KEY (tenant_id, visit_id) REFERENCES visit(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE calculation ADD CONSTRAINT calculation_tenant_id_fkey FOREIGN KEY (tenant_id) REFERENCES tenant(id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE calculation ADD CONSTRAINT calculation_tenant_id_circuit_id_fkey FOREIGN KEY (tenant_id, circuit_id) REFERENCES circuit(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE episode ADD CONSTRAINT episode_tenant_id_fkey FOREIGN KEY (tenant_id) REFERENCES tenant(id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE episode ADD CONSTRAINT episode_tenant_id_circuit_id_fkey FOREIGN KEY (tenant_id, circuit_id) REFERENCES circuit(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE duty ADD CONSTRAINT duty_tenant_id_fkey FOREIGN KEY (tenant_id) REFERENCES tenant(id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE duty ADD CONSTRAINT duty_tenant_id_circuit_id_fkey FOREIGN KEY (tenant_id, circuit_id) REFERENCES circuit(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE duty_evidence ADD CONSTRAINT duty_evidence_tenant_id_fkey FOREIGN KEY (tenant_id) REFERENCES tenant(id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE duty_evidence ADD CONSTRAINT duty_evidence_tenant_id_duty_id_fkey FOREIGN KEY (tenant_id, duty_id) REFERENCES duty(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE duty_evidence ADD CONSTRAINT duty_evidence_tenant_id_fact_id_fkey FOREIGN KEY (tenant_id, fact_id) REFERENCES fact(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE reminder ADD CONSTRAINT reminder_tenant_id_fkey FOREIGN KEY (tenant_id) REFERENCES tenant(id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE reminder ADD CONSTRAINT reminder_tenant_id_duty_id_fkey FOREIGN KEY (tenant_id, duty_id) REFERENCES duty(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE notice ADD CONSTRAINT notice_tenant_id_fkey FOREIGN KEY (tenant_id) REFERENCES tenant(id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE notice ADD CONSTRAINT notice_tenant_id_person_id_fkey FOREIGN KEY (tenant_id, person_id) REFERENCES person(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE notice ADD CONSTRAINT notice_tenant_id_duty_id_fkey FOREIGN KEY (tenant_id, duty_id) REFERENCES duty(tenant_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;
