-- Where a cylinder is follows from its facts in the order in which they happened. The columns keep the outcome, so that
-- lists can be cut down to it: a place, or lost since, or gone for good.
ALTER TABLE cylinder
  ADD COLUMN lost_at timestamptz(3),
  ADD COLUMN gone_at timestamptz(3),
  ADD COLUMN gone_how text,
  ADD CONSTRAINT cylinder_gone_how CHECK (gone_how IN ('returned', 'scrapped', 'kept')),
  ADD CONSTRAINT cylinder_gone_both CHECK ((gone_at IS NULL) = (gone_how IS NULL)),
  ADD CONSTRAINT cylinder_somewhere CHECK ((lost_at IS NULL OR gone_at IS NULL)
    AND (location_id IS NULL OR (lost_at IS NULL AND gone_at IS NULL)));
GRANT UPDATE (lost_at, gone_at, gone_how) ON cylinder TO ullage_app;

-- A customer's site is a place where a cylinder may be left.
ALTER TABLE location DROP CONSTRAINT location_kind;
ALTER TABLE location
  ADD CONSTRAINT location_kind CHECK (kind IN ('warehouse', 'van', 'customer-site', 'supplier', 'reclaimer'));

-- Shipments are listed by kind, newest first.
CREATE INDEX fact_tenant_id_kind_happened_at_idx ON fact(tenant_id, kind, happened_at);
