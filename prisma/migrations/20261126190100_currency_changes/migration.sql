-- A contractor says in which currency it reckons, and by which report CO2 equivalents are counted.
GRANT UPDATE (currency) ON tenant TO ullage_app;
ALTER TABLE tenant ADD CONSTRAINT tenant_gwp_set CHECK (gwp_set IN ('AR4', 'AR5', 'AR6'));
