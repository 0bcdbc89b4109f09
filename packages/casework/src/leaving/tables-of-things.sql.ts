/** What there is: places, machines, cylinders, people. */
import { iso } from './rows.ts';
import { CIRCUIT, CIRCUIT_TAG, join, table } from './table.sql.ts';
import type { Table } from './table.sql.ts';

export const THINGS: readonly Table[] = [
  table('customers', 'Whose places you look after.', {
    columns: [
      ['Customer id', 't.id'],
      ['Name', 't.name'],
      ['Since', iso('t.created_at')],
    ],
    from: 'FROM customer t ORDER BY t.id',
  }),
  table('sites', 'Where the units stand, with whom to ask for.', {
    columns: [
      ['Site id', 't.id'],
      ['Customer', 'w.name'],
      ['Name', 't.name'],
      ['Address', 't.address'],
      ['Time zone', 't.time_zone'],
      ['Country', 't.country'],
      ['Region', 't.region'],
      ['Height above sea, m', 't.elevation_m'],
      ['Height assumed', "CASE WHEN t.elevation_assumed THEN 'yes' ELSE 'no' END"],
      ['Latitude', 't.latitude'],
      ['Longitude', 't.longitude'],
      ['Access', 't.access_notes'],
      [
        'Contacts',
        `(SELECT string_agg(k.name || coalesce(' ' || k.phone, ''), '; ' ORDER BY k.id) FROM contact k
          WHERE k.tenant_id = t.tenant_id AND k.site_id = t.id)`,
      ],
    ],
    from: `FROM site t${join('customer', 'w', 't.customer_id')} ORDER BY t.id`,
  }),
  table('units', 'Machines.', {
    columns: [
      ['Unit id', 't.id'],
      ['Site', 's.address'],
      ['Site id', 't.site_id'],
      ['Tag', 't.tag'],
      ['Description', 't.description'],
    ],
    from: `FROM unit t${join('site', 's', 't.site_id')} ORDER BY t.id`,
  }),
  table('circuits', 'Refrigerant circuits, each with its latest full charge as it was entered.', {
    columns: [
      ['Circuit id', 't.id'],
      ['Circuit', "u.tag || '-' || t.letter"],
      ['Unit id', 't.unit_id'],
      ['Refrigerant', 't.refrigerant'],
      ['Use', 't.use'],
      ['Equipment', 't.equipment'],
      ['Subsector', 't.subsector'],
      ['Full charge', 'f.value'],
      ['Unit of it', 'f.unit'],
      ['How it was found', 'f.method'],
      ['Valid from', 'f.from_on'],
      ['Installed', 't.installed_on'],
      ['Closed', iso('t.closed_at')],
    ],
    from: `FROM circuit t${join('unit', 'u', 't.unit_id')}
      LEFT JOIN LATERAL (SELECT f.value, f.unit, f.method, f.from_on FROM full_charge f WHERE f.tenant_id = t.tenant_id AND f.circuit_id = t.id
        ORDER BY f.from_on DESC, f.recorded_at DESC, f.id DESC LIMIT 1) f ON true ORDER BY t.id`,
  }),
  table('full-charges', 'Every full charge that was ever stated.', {
    columns: [
      ['Circuit', CIRCUIT_TAG],
      ['Circuit id', 't.circuit_id'],
      ['From', 't.from_on'],
      ['Mass', 't.value'],
      ['Unit of it', 't.unit'],
      ['At least', 't.low_value'],
      ['At most', 't.high_value'],
      ['How it was found', 't.method'],
      ['Evidence', 't.evidence'],
    ],
    from: `FROM full_charge t${CIRCUIT} ORDER BY t.circuit_id, t.from_on, t.id`,
  }),
  table('cylinders', 'Cylinders, and the grams of gas that the books have in each.', {
    columns: [
      ['Cylinder id', 't.id'],
      ['Label', 't.label'],
      ['Serial', 't.serial'],
      ['Kind', 't.kind'],
      ['Specification', 't.specification'],
      ['Water capacity, kg', 't.water_capacity_kg'],
      ['Service pressure, kPa gauge', 't.service_pressure_kpa_gauge'],
      ['Made', 't.made_month'],
      ['Tested', 't.tested_month'],
      ['Tare', 'r.value'],
      ['Unit of it', 'r.unit'],
      ['For', 't.dedicated_to'],
      ['Owner', 'w.name'],
      ['Kept at', 'l.name'],
      [
        'Inside, g',
        `(SELECT string_agg(b.refrigerant || ' ' || b.grams, '; ' ORDER BY b.refrigerant) FROM (
          SELECT refrigerant, sum(grams) AS grams FROM balance b JOIN gas_account a ON a.tenant_id = b.tenant_id
          AND a.id = b.account_id WHERE a.tenant_id = t.tenant_id AND a.cylinder_id = t.id GROUP BY refrigerant
          HAVING sum(grams) <> 0) b)`,
      ],
    ],
    from: `FROM cylinder t${join('customer', 'w', 't.owner_customer_id')}${join('location', 'l', 't.location_id')}
      LEFT JOIN LATERAL (SELECT r.value, r.unit FROM cylinder_tare r WHERE r.tenant_id = t.tenant_id AND r.cylinder_id = t.id
        ORDER BY r.from_at DESC, r.recorded_at DESC, r.id DESC LIMIT 1) r ON true ORDER BY t.id`,
  }),
  table('instruments', 'Detectors, gauges, scales and recovery machines.', {
    columns: [
      ['Instrument id', 't.id'],
      ['Tag', 't.tag'],
      ['Kind', 't.kind'],
      ['Smallest leak it senses, g a year', 't.sense_grams_per_year'],
      ['Repeatability', 't.repeatability'],
      ['Unit of it', 't.repeatability_unit'],
      ['Carried by', 'p.name'],
      ['Retired', iso('t.retired_at')],
    ],
    from: `FROM instrument t${join('person', 'p', 't.carrier_id')} ORDER BY t.id`,
  }),
  table('locations', 'Warehouses, vans and others’ places.', {
    columns: [
      ['Location id', 't.id'],
      ['Kind', 't.kind'],
      ['Name', 't.name'],
      ['Height above sea, m', 't.elevation_m'],
      ['Kept by', 'p.name'],
    ],
    from: `FROM location t${join('person', 'p', 't.keeper_id')} ORDER BY t.id`,
  }),
  table('people', 'People and their certificates.', {
    columns: [
      ['Person id', 't.id'],
      ['Name', 't.name'],
      ['E-mail', 't.email'],
      ['Role', 't.role'],
      ['Here', "CASE WHEN t.active THEN 'yes' ELSE 'no' END"],
      ['Certificate', "nullif(concat_ws(' ', k.scheme, k.type), '')"],
      ['Registered', 'k.registered_on'],
      ['Ends', 'k.ends_on'],
    ],
    from: `FROM person t LEFT JOIN certificate k ON k.tenant_id = t.tenant_id AND k.person_id = t.id ORDER BY t.id, k.id`,
  }),
];
