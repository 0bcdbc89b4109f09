import type { ServiceRecordView } from '@ullage/contracts';
import type { ReactNode } from 'react';
import { dayWords, localTime } from '../../lib/local-time.ts';
import { DefinitionList } from '../../ui/definition-list.tsx';
import { Sheet } from '../../ui/sheet.tsx';
import css from './record.module.css';

type Record = ServiceRecordView;
const when = (instant: string, zone: string): string => {
  const { day, time } = localTime(instant, zone);
  return `${dayWords(day)}, ${time}`;
};

interface GridProps {
  readonly item: string;
  readonly title: string;
  readonly head: readonly string[];
  readonly rows: readonly (readonly ReactNode[])[];
  /** Said where there is nothing: a record is whole, so nothing is left blank. */
  readonly none: string;
}
/** One item of the record with its number in the rule. */
function Grid({ item, title, head, rows, none }: GridProps) {
  return (
    <section className={css['part']}>
      <h2>
        <span>{item}</span> {title}
      </h2>
      {rows.length === 0 ? (
        <p>{none}</p>
      ) : (
        <div className={css['wide']}>
          <table>
            <thead>
              <tr>
                {head.map((name) => (
                  <th key={name} scope="col">
                    {name}
                  </th>
                ))}
              </tr>
            </thead>
            <tbody>
              {rows.map((cells, row) => (
                <tr key={row}>
                  {cells.map((cell, i) => (
                    <td key={i}>
                      <span className={css['head']} aria-hidden="true">
                        {head[i]}
                      </span>
                      <div>{cell}</div>
                    </td>
                  ))}
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
    </section>
  );
}

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
            { term: 'Where', value: `${site.name}, ${site.address}` },
            ...record.units.map((unit) => ({
              term: `Circuit ${unit.tag}`,
              value: [unit.description, unit.refrigerant].filter(Boolean).join(', '),
            })),
          ]}
        />
      </section>
      <section className={css['part']}>
        <h2>
          <span>(ii)</span> Day of the work
        </h2>
        <p>{dayWords(record.day)}</p>
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
        head={['Circuit', 'Part', 'Work']}
        rows={record.parts.map(({ circuitTag, part, work }) => [tag(circuitTag), part, work])}
        none="No part was serviced."
      />
      <Grid
        item="(v)"
        title="Who did it"
        head={['Name', 'Certificate']}
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
          `${line.mass.value} ${line.mass.unit}`,
          line.grams.toLocaleString('en-US'),
          tag(line.cylinder),
        ])}
        none="No refrigerant was added or removed."
      />
    </>
  );
}

function Tests({ record }: { record: Record }) {
  const zone = record.site.timeZone;
  return (
    <>
      <Grid
        item=""
        title="Verification tests"
        head={['Circuit', 'Test', 'At', 'Where', 'Method', 'Result']}
        rows={record.tests.map((test) => [
          tag(test.circuitTag),
          test.kind,
          when(test.at, zone),
          test.where,
          test.method,
          test.result,
        ])}
        none="No verification test was made."
      />
      <Grid
        item=""
        title="Leak inspections"
        head={['Circuit', 'At', 'Methods', 'Result', 'Not accessible', 'All visible and accessible parts seen']}
        rows={record.inspections.map((one) => [
          tag(one.circuitTag),
          when(one.at, zone),
          one.methods,
          one.result,
          one.inaccessible.join('; ') || 'nothing',
          one.certified ? 'yes' : 'no',
        ])}
        none="No leak inspection was made."
      />
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

/** What a contractor hands over: 40 CFR 82.157(l)(2), items (i) to (vi), and the tests. Rate and full charge are the owner's. */
export function ServiceRecord({ record }: { record: Record }) {
  return (
    <Sheet
      from={record.contractor}
      name={`Service record, ${dayWords(record.day)}`}
      title="Service record"
      lead={`${record.site.customer.name}, ${record.site.name}. Given to the owner or operator after the work, 40 CFR 82.157(l)(2).`}
      signatures={[
        { who: 'Technician', what: 'the work and the weights are as I did and took them' },
        { who: 'Received for the owner or operator', what: 'name and day' },
      ]}
      foot="Keep for three years, 40 CFR 82.157(l)(2). Full charge and leak rate stand on the owner’s own sheet. Local codes and licensed practice rule."
      made={`Made ${when(record.madeAt, record.site.timeZone)}`}
    >
      <Unit record={record} />
      <Work record={record} />
      <Tests record={record} />
    </Sheet>
  );
}
