/** What a person, or a spreadsheet, reads: one file a thing, its heads in the words of the trade. */
import { iso } from './rows.ts';

export interface Table {
  readonly name: string;
  /** What the README says of it. */
  readonly about: string;
  readonly heads: readonly string[];
  /** Rows of one column `line`: a JSON array as long as `heads`. */
  readonly query: string;
}
type Column = readonly [head: string, sql: string];

function table(name: string, about: string, { columns, from }: { columns: readonly Column[]; from: string }): Table {
  const line = `json_build_array(${columns.map(([, sql]) => sql).join(', ')})::text`;
  return { name: `tables/${name}.csv`, about, heads: columns.map(([head]) => head), query: `SELECT ${line} AS line ${from}` };
}
/** Every join stays within the contractor: the walls let nothing else be seen, and the keys say it too. */
const join = (other: string, as: string, on: string): string =>
  ` LEFT JOIN ${other} ${as} ON ${as}.tenant_id = t.tenant_id AND ${as}.id = ${on}`;
const CIRCUIT_TAG = "u.tag || '-' || c.letter";
const CIRCUIT = `${join('circuit', 'c', 't.circuit_id')} LEFT JOIN unit u ON u.tenant_id = c.tenant_id AND u.id = c.unit_id`;
const account = (side: 'from' | 'to'): { columns: Column[]; joins: string } => {
  const [a, y, c, u] = [`${side}_a`, `${side}_y`, `${side}_c`, `${side}_u`];
  return {
    columns: [
      [side === 'from' ? 'From' : 'To', `${a}.kind`],
      [`${side === 'from' ? 'From' : 'To'} which`, `coalesce(${y}.label, ${y}.serial, ${u}.tag || '-' || ${c}.letter)`],
      [`${side === 'from' ? 'From' : 'To'} id`, `coalesce(${y}.id, ${c}.id)`],
    ],
    joins: `${join('gas_account', a, `t.${side}_id`)}
      LEFT JOIN cylinder ${y} ON ${y}.tenant_id = ${a}.tenant_id AND ${y}.id = ${a}.cylinder_id
      LEFT JOIN circuit ${c} ON ${c}.tenant_id = ${a}.tenant_id AND ${c}.id = ${a}.circuit_id
      LEFT JOIN unit ${u} ON ${u}.tenant_id = ${c}.tenant_id AND ${u}.id = ${c}.unit_id`,
  };
};
const FROM = account('from');
const TO = account('to');

export const TABLES: readonly Table[] = [
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
      LEFT JOIN LATERAL (SELECT * FROM full_charge f WHERE f.tenant_id = t.tenant_id AND f.circuit_id = t.id
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
      LEFT JOIN LATERAL (SELECT * FROM cylinder_tare r WHERE r.tenant_id = t.tenant_id AND r.cylinder_id = t.id
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
  table('visits', 'Attendances: planned, under way and done.', {
    columns: [
      ['Visit id', 't.id'],
      ['Site', 's.address'],
      ['Purpose', 't.purpose'],
      ['State', 't.state'],
      ['Symptom', 't.symptom'],
      ['Planned', iso('t.planned_start')],
      ['Minutes', 't.planned_minutes'],
      ['Started', iso('t.started_at')],
      ['Finished', iso('t.finished_at')],
      ['Notes', 't.notes'],
      [
        'Circuits',
        `(SELECT string_agg(${CIRCUIT_TAG}, '; ' ORDER BY u.tag, c.letter) FROM visit_circuit v
          JOIN circuit c ON c.tenant_id = v.tenant_id AND c.id = v.circuit_id
          JOIN unit u ON u.tenant_id = c.tenant_id AND u.id = c.unit_id WHERE v.tenant_id = t.tenant_id AND v.visit_id = t.id)`,
      ],
      [
        'People',
        `(SELECT string_agg(p.name, '; ' ORDER BY p.name) FROM visit_person v JOIN person p ON p.tenant_id = v.tenant_id
          AND p.id = v.person_id WHERE v.tenant_id = t.tenant_id AND v.visit_id = t.id)`,
      ],
    ],
    from: `FROM visit t${join('site', 's', 't.site_id')} ORDER BY t.id`,
  }),
  table('facts', 'What happened and what was read, each with its details as JSON.', {
    columns: [
      ['Fact id', 't.id'],
      ['Kind', 't.kind'],
      ['Happened', `coalesce(${iso('t.happened_at')}, t.happened_on::text)`],
      ['Written down', iso('t.recorded_at')],
      ['By', 'p.name'],
      ['Circuit', CIRCUIT_TAG],
      ['Visit id', 't.visit_id'],
      ['Corrects', 't.corrects_id'],
      ['Details', 't.body::text'],
    ],
    from: `FROM fact t${join('person', 'p', 't.by_person_id')}${CIRCUIT} ORDER BY t.recorded_at, t.id`,
  }),
  table('weighings', 'What a scale showed, as it was entered.', {
    columns: [
      ['Cylinder', 'coalesce(y.label, y.serial)'],
      ['Cylinder id', 't.cylinder_id'],
      ['When', iso('t.at')],
      ['Before or after', 't.role'],
      ['Gross', 't.value'],
      ['Unit of it', 't.unit'],
      ['Gross, g', 't.grams'],
      ['Tare, g', 't.tare_grams'],
      ['Scale', 'i.tag'],
      ['Fact id', 't.fact_id'],
    ],
    from: `FROM weighing t${join('cylinder', 'y', 't.cylinder_id')}${join('instrument', 'i', 't.scale_id')} ORDER BY t.at, t.id`,
  }),
  table('movements', 'Every posting of gas. Additions go to a circuit, recoveries come from one.', {
    columns: [
      ['Movement id', 't.id'],
      ['Happened', iso('t.happened_at')],
      ['Written down', iso('t.recorded_at')],
      ['Refrigerant', 't.refrigerant'],
      ['Mass, g', 't.grams'],
      ...FROM.columns,
      ...TO.columns,
      ['Measured by', 't.measured'],
      ['Derived, because of', 't.derived_cause'],
      ['Reverses', 't.corrects_id'],
      ['Fact id', 't.fact_id'],
      ['Visit id', 't.visit_id'],
    ],
    from: `FROM movement t${FROM.joins}${TO.joins} ORDER BY t.recorded_at, t.id`,
  }),
  table('leak-points', 'Leaks that were located.', {
    columns: [
      ['Leak id', 't.id'],
      ['Circuit', CIRCUIT_TAG],
      ['Number', 't.number'],
      ['Place', 't.place'],
      ['Where', 't.where_text'],
      ['At least, g a year', 't.low_grams_per_year'],
      ['At most, g a year', 't.high_grams_per_year'],
      ['State', 't.state'],
      ['Found', iso('t.found_at')],
    ],
    from: `FROM leak_point t${CIRCUIT} ORDER BY t.circuit_id, t.number`,
  }),
  table('leak-rates', 'Leak-rate calculations; what a later fact changed stands beside what it became.', {
    columns: [
      ['Calculation id', 't.id'],
      ['Circuit', CIRCUIT_TAG],
      ['Rulebook', 't.rulebook'],
      ['Version', 't.rulebook_version'],
      ['Method', 't.method'],
      ['Day', 't.on_day'],
      ['Rate', 't.rate_text'],
      ['Over the threshold', "CASE WHEN t.over THEN 'yes' ELSE 'no' END"],
      ['Stands', "CASE WHEN t.standing THEN 'yes' ELSE 'no' END"],
    ],
    from: `FROM calculation t${CIRCUIT} ORDER BY t.circuit_id, t.rulebook, t.number`,
  }),
  table('duties', 'What the law asked, until when, and what became of it.', {
    columns: [
      ['Duty id', 't.id'],
      ['Circuit', CIRCUIT_TAG],
      ['Rulebook', 't.rulebook'],
      ['Kind', 't.kind'],
      ['Clause', 't.clause'],
      ['Responsible', 't.responsible'],
      ['Since', iso('t.since_at')],
      ['Last day', 't.due_on'],
      ['State', 't.state'],
      ['Provisional', "CASE WHEN t.provisional THEN 'yes' ELSE 'no' END"],
      ['Why', 't.why'],
    ],
    from: `FROM duty t${CIRCUIT} ORDER BY t.circuit_id, t.id`,
  }),
  table('prices', 'What gas costs since when.', {
    columns: [
      ['Refrigerant', 't.refrigerant'],
      ['From', 't.from_on'],
      ['Per', 't.unit'],
      ['Purchase', 't.purchase'],
      ['Sale', 't.sale'],
      ['Currency', 't.currency'],
      ['Set by', 'p.name'],
      ['Withdrawn', iso('t.withdrawn_at')],
    ],
    from: `FROM gas_price t${join('person', 'p', 't.set_by')} ORDER BY t.refrigerant, t.from_on, t.id`,
  }),
  table('audit', 'Who changed what, when.', {
    columns: [
      ['When', iso('t.at')],
      ['Who', 'p.name'],
      ['What was done', 't.action'],
      ['Kind of record', 't.record_kind'],
      ['Record id', 't.record_id'],
      ['Command id', 't.command_id'],
      ['Details', 't.detail::text'],
    ],
    from: `FROM audit t LEFT JOIN person p ON p.tenant_id = t.tenant_id AND p.user_id = t.user_id ORDER BY t.at, t.id`,
  }),
];
