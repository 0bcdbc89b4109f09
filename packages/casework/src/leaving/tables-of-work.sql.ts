/** What was done, and what followed from it. */
import { iso } from './rows.ts';
import { CIRCUIT, CIRCUIT_TAG, join, table } from './table.sql.ts';
import type { Column, Table } from './table.sql.ts';

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

export const WORK: readonly Table[] = [
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
