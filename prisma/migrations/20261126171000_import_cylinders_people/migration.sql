-- Cylinders with what is in them, and people with their certificates, come from files too, and are taken back as the rest is.

ALTER TABLE cylinder ADD COLUMN withdrawn_at TIMESTAMPTZ(3);
ALTER TABLE person ADD COLUMN withdrawn_at TIMESTAMPTZ(3);
ALTER TABLE certificate ADD COLUMN withdrawn_at TIMESTAMPTZ(3);
ALTER TABLE import_row ADD COLUMN made_cylinder_id UUID, ADD COLUMN made_person_id UUID;

-- Whoever is invited under an address becomes the person who bears it: one who was taken back bears none, and comes in no more.
ALTER TABLE person ADD CONSTRAINT person_withdrawn_is_nobody CHECK (
  withdrawn_at IS NULL OR (NOT active AND email IS NULL AND user_id IS NULL));

GRANT UPDATE (withdrawn_at) ON cylinder, certificate TO ullage_app;
GRANT UPDATE (withdrawn_at, email) ON person TO ullage_app;
GRANT UPDATE (made_cylinder_id, made_person_id) ON import_row TO ullage_app;
