-- A certificate ends or is put right by a guarded update on the version that was seen, as a visit is moved.
ALTER TABLE certificate ADD COLUMN version integer NOT NULL DEFAULT 1;
ALTER TABLE certificate ALTER COLUMN version DROP DEFAULT;
GRANT UPDATE (version) ON certificate TO ullage_app;

-- Somebody without a sign-in leaves and comes back by a command. Whoever signs in leaves through the sign-in library, whose
-- trigger changes user and role: the application still changes neither.
GRANT UPDATE (active) ON person TO ullage_app;
