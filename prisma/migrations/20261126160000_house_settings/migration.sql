-- What a contractor chooses to read. A vacuum is read in micron or pascal, whatever other pressures are read in.
ALTER TABLE tenant ADD COLUMN vacuum_unit text NOT NULL DEFAULT 'micron';
GRANT UPDATE (vacuum_unit) ON tenant TO ullage_app;

ALTER TABLE tenant
  ADD CONSTRAINT tenant_mass_unit CHECK (mass_unit IN ('lb', 'lb-oz', 'kg', 'g')),
  ADD CONSTRAINT tenant_pressure_unit CHECK (pressure_unit IN ('psig', 'kpa-gauge', 'bar-gauge')),
  ADD CONSTRAINT tenant_temperature_unit CHECK (temperature_unit IN ('F', 'C')),
  ADD CONSTRAINT tenant_vacuum_unit CHECK (vacuum_unit IN ('micron', 'pa')),
  ADD CONSTRAINT tenant_shop_excess CHECK (shop_excess_kpa BETWEEN 5 AND 300);
ALTER TABLE location
  ADD CONSTRAINT location_kind CHECK (kind IN ('warehouse', 'van', 'supplier', 'reclaimer'));
