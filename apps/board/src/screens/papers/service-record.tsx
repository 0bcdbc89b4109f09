import type { ServiceRecordView } from '@ullage/contracts';
import type { ReactNode } from 'react';
import { dayWords, localTime } from '../../lib/local-time.ts';
import { massWords } from '../../office/masses.ts';
import { siteWords } from '../../office/site-words.ts';
import { DefinitionList } from '../../ui/definition-list.tsx';
import { Sheet } from '../../ui/sheet.tsx';
import { Grid } from './grid.tsx';
import css from './record.module.css';

type Record = ServiceRecordView;
const when = (instant: string, zone: string): string => {
  const { day, time } = localTime(instant, zone);
  return `${dayWords(day)}, ${time}`;
};

const tag = (text: string): ReactNode => <span className="id">{text}</span>;

function Unit({ record }: { record: Record }) {
  const { site } = record;
  return (
    <>
      <section className={css['part']}>
        <h2>
          <span>(i)</span> Owner or operator, and where
        </h2>
        <DefinitionList
          items={[
            { term: 'Owner or operator', value: site.customer.name },
            { term: 'Where', value: siteWords(site) },
            ...record.units.map((unit) => ({
              term: `Circuit ${unit.tag}`,
              value: [unit.description, unit.refrigerant].filter(Boolean).join(', '),
            })),
          ]}
        />
      </section>
      <section className={css['part']}>
        <h2>
          <span>(ii)</span> {record.days.length === 1 ? 'Day' : 'Days'} of the work
        </h2>
        <p>{record.days.map(dayWords).join(', ')}</p>
      </section>
    </>
  );
}

function Work({ record }: { record: Record }) {
  return (
    <>
      <Grid
        item="(iii), (iv)"
        title="Parts serviced, and what was done"
        head={['Circuit', 'Part', 'Work', 'By']}
        rows={record.parts.map(({ circuitTag, part, work, by }) => [tag(circuitTag), part, work, by])}
        none="No part was serviced."
      />
      <Grid
        item="(v)"
        title="Who did it"
        head={['Name', 'Certificate on the day, 40 CFR 82.161']}
        rows={record.technicians.map(({ name, certificates }) => [name, certificates])}
        none="Nobody was placed on this visit."
      />
      <Grid
        item="(vi)"
        title="Refrigerant added and removed"
        head={['Circuit', 'Refrigerant', 'Direction', 'Mass as weighed', 'Grams', 'Cylinder']}
        rows={record.gas.map((line) => [
          tag(line.circuitTag),
          line.refrigerant,
          line.direction,
          massWords(line.mass),
          line.grams.toLocaleString('en-US'),
          tag(line.cylinder),
        ])}
        none="No refrigerant was added or removed."
      />
      {record.gas.length > 1 && (
        <Grid
          item="(vi)"
          title="In all"
          head={['Circuit', 'Refrigerant', 'Added', 'Removed', 'Net of the visit']}
          rows={record.gasTotals.map(({ circuitTag, refrigerant, added, removed, net }) => [
            tag(circuitTag),
            refrigerant,
            massWords(added),
            massWords(removed),
            `${massWords(net)} ${net.direction}`,
          ])}
          none=""
        />
      )}
    </>
  );
}

function Inspections({ record }: { record: Record }) {
  return (
    <Grid
      item=""
      title="Leak inspections"
      head={[
        'Circuit',
        'At',
        'Methods',
        'Result',
        'Leaking',
        'Not accessible',
        'All visible and accessible parts inspected',
        'By',
      ]}
      rows={record.inspections.map((one) => [
        tag(one.circuitTag),
        when(one.at, record.site.timeZone),
        one.methods,
        one.result,
        one.leaking.join('; ') || 'nothing',
        one.inaccessible.join('; ') || 'nothing',
        one.certified ? 'yes' : 'no',
        one.by,
      ])}
      none="No leak inspection was made."
    />
  );
}

function Tests({ record }: { record: Record }) {
  const zone = record.site.timeZone;
  return (
    <>
      <Grid
        item=""
        title="Verification tests"
        head={['Circuit', 'Test', 'At', 'Where', 'Method', 'Result', 'By']}
        rows={record.tests.map((test) => [
          tag(test.circuitTag),
          test.kind,
          when(test.at, zone),
          test.where,
          test.method,
          test.result,
          test.by,
        ])}
        none="No verification test was made."
      />
      <Inspections record={record} />
      <Grid
        item=""
        title="Statements of normal operation"
        head={['Circuit', 'At', 'By']}
        rows={record.statements.map((one) => [tag(one.circuitTag), when(one.at, zone), one.by])}
        none="None was made at this visit."
      />
      {record.corrections.length > 0 && (
        <Grid
          item=""
          title="Corrected on"
          head={['At', 'Why']}
          rows={record.corrections.map((one) => [when(one.at, zone), one.why])}
          none=""
        />
      )}
    </>
  );
}

/** The site, with its owner where its name does not begin with it. */
const whose = ({ site: { customer, name } }: Record): string =>
  name.startsWith(customer.name) ? name : `${customer.name}, ${name}`;

/** What a contractor hands over: items (i) to (vi) of the rule, and the tests. Rate and full charge are the owner's. */
export function ServiceRecord({ record }: { record: Record }) {
  const under = record.clauses.map((clause) => `, ${clause}`).join('');
  return (
    <Sheet
      from={record.contractor}
      name={`Service record, ${dayWords(record.days[0] ?? '')}`}
      title="Service record"
      lead={`${whose(record)}. Given to the owner or operator after the work${under}.`}
      signatures={[
        {
          who: ['Technician', record.technicians.map(({ name }) => name).join(', ')].filter(Boolean).join(': '),
          what: 'the work and the weights are as I did and took them',
        },
        { who: 'Received for the owner or operator', what: 'name and day' },
      ]}
      foot="Keep for three years. Full charge and leak rate stand on the owner’s own sheet. Local codes and licensed practice rule."
      made={`Made ${when(record.madeAt, record.site.timeZone)}`}
    >
      <Unit record={record} />
      <Work record={record} />
      <Tests record={record} />
    </Sheet>
  );
}
