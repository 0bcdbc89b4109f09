import type { RepeatRow, RepeatsView } from '@ullage/contracts';
import { exactGrams, toNumber, type MassUnit } from '@ullage/units';
import type { Route } from 'next';
import Link from 'next/link';
import type { ReactNode } from 'react';
import { RateAxis, RateBar, rateTicks } from '../../pictures/rate-bar.tsx';
import { TopOffLine } from '../../pictures/top-off-line.tsx';
import { State } from '../../ui/state.tsx';
import { dutyLeft } from '../duty-left.ts';
import { unitPath } from '../link-to.ts';
import { massWords } from '../masses.ts';
import { monthWords } from '../when.ts';
import { PRICES_PATH, repeatsPath, type RepeatsAsked } from './asked.ts';
import css from './costs.module.css';
import { co2eWords, costSaid, gasSaid, rateWords, shareWords, timesWords, watchedWords } from './words.ts';

export interface RepeatTableProps {
  readonly list: RepeatsView;
  readonly asked: RepeatsAsked;
  /** The circuit whose evidence stands beside the list. */
  readonly selected: string | undefined;
  readonly unit: MassUnit;
}

/** A number leads to what it rests on. */
function Basis({ to, what, children }: { to: Route; what: string; children: ReactNode }) {
  return (
    <Link href={to}>
      {children}
      <span className="spoken">, {what}</span>
    </Link>
  );
}

const shareOf = (grams: number | null, { fullCharge }: RepeatRow): number | undefined =>
  grams === null || !fullCharge ? undefined : grams / toNumber(exactGrams(fullCharge));

function Circuit({ row }: { row: RepeatRow }) {
  return (
    <>
      <Link className="id" href={unitPath(row.unitId, row.letter)}>
        {row.tag}
      </Link>{' '}
      {row.site}
      <small>
        {row.description !== null && `${row.description}, `}
        <span className={css['keep']}>{row.refrigerant}</span>
        {row.fullCharge && (
          <>
            , <span className={css['keep']}>{massWords(row.fullCharge)}</span>
          </>
        )}
      </small>
    </>
  );
}

function Duty({ duty, today }: { duty: RepeatRow['duties'][number]; today: string }) {
  const { mark, word, left } = dutyLeft(duty, today);
  return (
    <span>
      <State mark={mark}>{duty.title}</State>
      <small>{left === '' ? word : `${word}, ${left}`}</small>
    </span>
  );
}

function Standing({ row, today, to }: { row: RepeatRow; today: string; to: (part: string) => Route }) {
  const [first, ...more] = row.duties;
  return (
    <>
      {row.plan && (
        <Link href={to('plan')}>
          <State mark="planned">To be replaced{row.plan.byOn === null ? '' : ` by ${monthWords(row.plan.byOn)}`}</State>
        </Link>
      )}
      {first && (
        <Link href={to('duties')}>
          <Duty duty={first} today={today} />
        </Link>
      )}
      {more.length > 0 && <small>and {more.length} more open</small>}
      {!row.plan && !first && <span className="quiet">nothing open</span>}
    </>
  );
}

function Cost({ row, to, currency }: { row: RepeatRow; to: Route; currency: string }) {
  const said = costSaid(row, currency);
  const isUnpriced = row.cost.amount === null && row.cost.unpriced > row.unweighed;
  return (
    <>
      {isUnpriced ? (
        <Link href={PRICES_PATH}>
          {said.text}
          <span className="spoken"> of {row.refrigerant}: the price table</span>
        </Link>
      ) : (
        <Basis to={to} what={`cost of ${row.tag}`}>
          {said.text}
        </Basis>
      )}
      {said.note !== undefined && !isUnpriced && <small>{said.note}</small>}
    </>
  );
}

function Co2e({ row, set, to }: { row: RepeatRow; set: string; to: Route }) {
  if (row.co2eKg === null) return <span className="quiet">{row.gwp ? 'not known' : `not in ${set}`}</span>;
  return (
    <Basis to={to} what={`CO2 equivalent of ${row.tag}`}>
      {co2eWords(row.co2eKg)}
    </Basis>
  );
}

interface CellProps extends RepeatTableProps {
  readonly row: RepeatRow;
  readonly ticks: readonly number[];
}
function Cell({ head, right, className, children }: CellFrame) {
  return (
    <td data-right={right} className={className}>
      <span className={css['head']} aria-hidden="true">
        {head}
      </span>
      <div>{children}</div>
    </td>
  );
}
interface CellFrame {
  readonly head: string;
  readonly right?: boolean;
  readonly className?: string | undefined;
  readonly children: ReactNode;
}

function Row({ row, list, asked, selected, unit, ticks }: CellProps) {
  const { firstDay, lastDay } = list.window;
  const to = (part: string): Route => repeatsPath({ ...asked, circuit: row.circuitId }, part);
  const gas = gasSaid(row, unit);
  return (
    <tr data-selected={row.circuitId === selected || undefined}>
      <th scope="row" className={css['what']}>
        <Circuit row={row} />
      </th>
      <Cell head="On time" className={css['line']}>
        <TopOffLine
          from={firstDay}
          to={lastDay}
          since={row.watched.firstDay}
          additions={row.additions.map(({ day, grams, topOff }) => ({ day, topOff, share: shareOf(grams, row) }))}
        />
      </Cell>
      <Cell head="Top-offs" right>
        <Basis to={to('additions')} what={`the additions of ${row.tag}`}>
          {timesWords(row.topOffs)}
        </Basis>
        {row.watched.shortened && <small>{watchedWords(row.watched.days)}</small>}
      </Cell>
      <Cell head="A year" className={css['rate']}>
        <RateBar rate={row.rate} fleet={list.fleet.rate?.perYear} ticks={ticks} />
        <small className="spoken">{rateWords(row.rate)}</small>
      </Cell>
      <Cell head="Gas" right>
        <Basis to={to('additions')} what={`gas added to ${row.tag}`}>
          {gas.text}
        </Basis>
        {gas.note !== undefined && <small>{gas.note}</small>}
        {gas.note !== undefined && row.unweighed > 0 && <small>{row.unweighed} not weighed</small>}
      </Cell>
      <Cell head="Of charge" right>
        <Basis to={to('additions')} what={`share of the charge of ${row.tag}`}>
          {shareWords(row.sharePercent)}
        </Basis>
      </Cell>
      <Cell head="Gas cost" right>
        <Cost row={row} to={to('cost')} currency={list.currency} />
      </Cell>
      <Cell head="CO₂e" right>
        <Co2e row={row} set={list.gwpSet} to={to('co2e')} />
      </Cell>
      <Cell head="State" className={css['state']}>
        <Standing row={row} today={lastDay} to={to} />
      </Cell>
    </tr>
  );
}

/** The ranking: a row a circuit, additions on one line of time, the rate with its interval on one axis. */
export function RepeatTable(props: RepeatTableProps) {
  const { list } = props;
  const ticks = rateTicks(list.items.map(({ rate }) => rate));
  return (
    <table className={css['ranking']}>
      <caption className="spoken">Circuits by top-offs, with rate, gas, cost and what is open</caption>
      <thead>
        <tr>
          <th scope="col">Circuit</th>
          <th scope="col" className={css['line']}>
            Top-offs on time
            <span className={css['ends']}>
              <span>{monthWords(list.window.firstDay)}</span>
              <b>today</b>
            </span>
          </th>
          <th scope="col" data-right>
            Top-offs
          </th>
          <th scope="col" className={css['rate']}>
            A year, with interval
            <RateAxis ticks={ticks} />
          </th>
          <th scope="col" data-right>
            Gas
          </th>
          <th scope="col" data-right>
            Of charge
          </th>
          <th scope="col" data-right>
            Gas cost
          </th>
          <th scope="col" data-right>
            CO<sub>2</sub>e, {list.gwpSet}
          </th>
          <th scope="col">State</th>
        </tr>
      </thead>
      <tbody>
        {list.items.map((row) => (
          <Row key={row.circuitId} {...props} row={row} ticks={ticks} />
        ))}
      </tbody>
    </table>
  );
}

export function Legend() {
  return (
    <p className={css['legend']}>
      Stem: share of the charge; hollow: no top-off, because a repair was verified at the visit; broken: never weighed.
      Tick: plain count over the time watched. Bar: 95 %, exact Poisson limits. Dashed: the whole fleet. Hatched: before
      the circuit was known. Worst first goes by the lower end of the bar: one large addition proves little. What is
      planned here is our own plan; legal plans stand among the duties.
    </p>
  );
}
