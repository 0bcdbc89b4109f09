import type { CircuitView, LeakPointView } from '@ullage/contracts';
import { RangeOnLog, type LogRange } from '../../pictures/range-on-log.tsx';
import { State } from '../../ui/state.tsx';
import { Table } from '../../ui/table.tsx';
import { sizeWords } from '../masses.ts';
import { Section } from '../section.tsx';
import { dayWords } from '../when.ts';
import { leakRanges } from './leak-ranges.ts';
import css from '../office.module.css';

const tick = (grams: number): string => (grams >= 1000 ? `${grams / 1000} kg` : `${grams} g`);

/** Does what was found explain what is gone? Both as ranges, on one line. */
export function Explains({ circuit }: { circuit: CircuitView }) {
  const { explains, leakPoints } = circuit;
  const ranges: readonly LogRange[] = leakRanges(leakPoints);
  if (!explains || explains.goneGramsPerYear === null || explains.goneGramsPerYear <= 0)
    return (
      <Section id="explains" title="Does what was found explain what is gone?">
        <p>
          {leakPoints.length === 0
            ? 'No leak is located yet, so nothing explains the loss.'
            : 'It cannot be said yet: it takes a leak with an estimate and a weighed loss.'}
        </p>
      </Section>
    );
  const gone = `gone: ${sizeWords(explains.goneGramsPerYear, explains.goneGramsPerYear).replace('/yr', ' a year')}`;
  return (
    <Section id="explains" title="Does what was found explain what is gone?">
      <p className={css['claim']}>{explains.text}</p>
      <RangeOnLog
        ranges={ranges}
        gone={{ value: explains.goneGramsPerYear, text: gone }}
        tickText={tick}
        label={[...ranges.map((range) => `${range.text}: ${range.rangeText} a year`), gone].join('; ')}
      />
    </Section>
  );
}

const changed = (leak: LeakPointView): string =>
  leak.changedOn === leak.foundOn
    ? `found ${dayWords(leak.foundOn)}`
    : `${dayWords(leak.changedOn)}; found ${dayWords(leak.foundOn)}`;

export function LeakPoints({ leakPoints }: { leakPoints: readonly LeakPointView[] }) {
  return (
    <Section id="leaks" title="Leak points">
      <Table
        caption="Leak points with place, estimate and state"
        rows={leakPoints}
        keyOf={(leak) => leak.id}
        empty={<p>No leak is located yet.</p>}
        columns={[
          {
            id: 'place',
            head: 'Place',
            cell: (leak) => (
              <span id={`leak-${leak.id}`}>
                <span className="id">{leak.label}</span> {leak.placeText}
                {leak.where !== '' && <small>{leak.where}</small>}
              </span>
            ),
          },
          {
            id: 'size',
            head: 'Estimated',
            cell: (leak) => (
              <span className={css['keep']}>{sizeWords(leak.lowGramsPerYear, leak.highGramsPerYear)}</span>
            ),
          },
          {
            id: 'state',
            head: 'State',
            cell: (leak) => (
              <>
                <span className={css['keep']}>
                  <State mark={leak.state} />
                </span>
                <small>{changed(leak)}</small>
              </>
            ),
          },
        ]}
      />
      {leakPoints.length > 0 && (
        <p className={css['rules']}>Sizes are ranges: estimates of what a leak loses in a year.</p>
      )}
    </Section>
  );
}
