-- The application changes what describes a thing, what state it is in and when it ended; which thing it is, whose it is, what
-- it rests on and when it came stay as they were written. A table-wide UPDATE allowed all of that: here are the columns.

-- What was received is never rewritten, or "the same command again" would be decided on something else.
REVOKE UPDATE ON command, attention, device, outbox FROM ullage_app;
GRANT UPDATE (state, answer, applied_at) ON command TO ullage_app;
GRANT UPDATE (holder_id, closed_at, closed_how, closed_by) ON attention TO ullage_app;
GRANT UPDATE (person_id, name, skew_ms, last_seen_at) ON device TO ullage_app;
GRANT UPDATE (sent_at, tries, last_error) ON outbox TO ullage_app;

-- Links are made and taken away, not bent.
REVOKE UPDATE ON command_wait, visit_person, visit_duty FROM ullage_app;
GRANT UPDATE (flag) ON visit_duty TO ullage_app;

-- People and things. A person's user and role follow from the sign-in library, by a trigger.
REVOKE UPDATE ON person, certificate, location, instrument, customer, facility, site, unit, circuit, cylinder FROM ullage_app;
GRANT UPDATE (name) ON person TO ullage_app;
GRANT UPDATE (type, registered_on, ends_on) ON certificate TO ullage_app;
GRANT UPDATE (name, elevation_m, keeper_id) ON location TO ullage_app;
GRANT UPDATE (tag, sense_grams_per_year, repeatability, repeatability_unit, carrier_id, made_on, retired_at) ON instrument TO ullage_app;
GRANT UPDATE (name) ON customer TO ullage_app;
GRANT UPDATE (name) ON facility TO ullage_app;
GRANT UPDATE (name, address, time_zone, elevation_m, latitude, longitude, country, region, access_notes) ON site TO ullage_app;
GRANT UPDATE (tag, description) ON unit TO ullage_app;
-- Not its refrigerant: what was booked under it would change its meaning.
GRANT UPDATE (letter, use, equipment, subsector, decided_by, decision_why, installed_on, closed_at) ON circuit TO ullage_app;
-- Not its kind and state of gas: what it held is read off its registration.
GRANT UPDATE (specification, serial, label, water_capacity_kg, service_pressure_kpa_gauge, made_month, tested_month, test_kind,
  owner_customer_id, dedicated_to, location_id, merged_into_id) ON cylinder TO ullage_app;

-- Work and what follows from facts. A duty is known by its natural key: rulebook, kind, episode and number.
REVOKE UPDATE ON visit, leak_point, taint, calculation, episode, duty, reminder, notice FROM ullage_app;
GRANT UPDATE (state, version, symptom, notes, planned_start, planned_minutes, opens_at, due_at, started_at, finished_at) ON visit TO ullage_app;
GRANT UPDATE (state) ON leak_point TO ullage_app;
GRANT UPDATE (cleared_by_fact, withdrawn_at) ON taint TO ullage_app;
GRANT UPDATE (standing) ON calculation TO ullage_app;
GRANT UPDATE (opened_at, closed_at, state, updated_at) ON episode TO ullage_app;
GRANT UPDATE (clause, responsible, since_at, opens_at, due_at, due_on, every_months, provisional, state, why, flags, leak_point_ids,
  rulebook_version, version, updated_at) ON duty TO ullage_app;
GRANT UPDATE (reminded_at, dropped_at) ON reminder TO ullage_app;
GRANT UPDATE (read_at) ON notice TO ullage_app;

REVOKE UPDATE ON notice_mail FROM ullage_app;
GRANT UPDATE (next_at, tries, sent_at, dropped_at, last_error) ON notice_mail TO ullage_app;
