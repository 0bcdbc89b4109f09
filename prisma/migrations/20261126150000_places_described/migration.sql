-- A height that nobody gave is taken as sea level, and is said to be taken: what gauges read there rests on it.
ALTER TABLE site ADD COLUMN elevation_assumed boolean NOT NULL DEFAULT false;
GRANT UPDATE (elevation_assumed) ON site TO ullage_app;
-- The person to ask for changes; the site keeps one.
GRANT UPDATE (name, phone) ON contact TO ullage_app;
