import type { RepeatRow, RepeatsView } from '@ullage/contracts';
import type { MassUnit } from '@ullage/units';
import type { Route } from 'next';
import Link from 'next/link';
import { PlanReplacement } from '../../screens/costs/plan-replacement.tsx';
import { Shape, State } from '../../ui/state.tsx';
import { dutyLeft } from '../duty-left.ts';
import { factAnchor, unitPath, visitPath } from '../link-to.ts';
import { gramsWords } from '../masses.ts';
import { dayAt, dayWords } from '../when.ts';
import css from './costs.module.css';
import { bothMasses, co2eWords, costSaid, gasSaid, moneyWords, priceWords, rateWords, shareWords } from './words.ts';

export interface EvidenceProps {
  readonly row: RepeatRow;
  readonly list: Pick<RepeatsView, 'currency' | 'gwpSet' | 'window'>;
  readonly unit: MassUnit;
  readonly zone: string;
  readonly plans: boolean;
}
type Addition = RepeatRow['additions'][number];

/** Where a fact of a circuit stands: at its visit, else on the unit's page. */
export const basisPath = (
  { unitId, letter }: Pick<RepeatRow, 'unitId' | 'letter'>,
  { visitId, factId }: { visitId: string | null; factId: string },
): Route => `${visitId === null ? unitPath(unitId, letter) : visitPath(visitId)}#${factAnchor(factId)}` as Route;

function Fact({ row, addition }: { row: RepeatRow; addition: Addition }) {
  const words = dayWords(addition.day);
  const [first, ...more] = addition.factIds;
  if (first === undefined) return words;
  return (
    <>
      <Link href={basisPath(row, { visitId: addition.visitId, factId: first })}>{words}</Link>
      {more.map((factId, i) => (
        <span key={factId}>
          {', '}
          <Link href={basisPath(row, { visitId: addition.visitId, factId })}>
            {i + 2}
            <span className="spoken">, another weighing of {words}</span>
          </Link>
        </span>
      ))}
    </>
  );
}

function Additions({ row, list, unit }: EvidenceProps) {
  return (
    <ul className={css['evidence']}>
      {row.additions.toReversed().map((addition) => (
        <li key={addition.factIds.join()}>
          <Shape mark={addition.topOff ? 'open' : 'verified'} />
          <div>
            <Fact row={row} addition={addition} />
            <small>{addition.reason}</small>
          </div>
          <div>
            {addition.grams === null ? <span className="quiet">not weighed</span> : bothMasses(addition.grams, unit)[0]}
            <small>{addition.cost === null ? 'no price' : moneyWords(addition.cost, list.currency)}</small>
          </div>
        </li>
      ))}
    </ul>
  );
}

/** Each price that was in force at a top-off, once. */
function pricesOf({ additions }: RepeatRow): NonNullable<Addition['price']>[] {
  const used = additions.flatMap(({ topOff, cost, price }) => (topOff && cost !== null && price ? [price] : []));
  return [...new Map(used.map((price) => [price.fromOn, price])).values()];
}

function Cost({ row, list }: EvidenceProps) {
  const said = costSaid(row, list.currency);
  return (
    <section id="cost" aria-labelledby="cost-head">
      <h3 id="cost-head">
        Gas cost <span>{row.cost.amount === null ? said.text : moneyWords(row.cost.amount, list.currency)}</span>
      </h3>
      <p className={css['sum']}>
        What we paid for the gas of the top-offs, each at the price of its own day
        {pricesOf(row).map((price) => `; ${priceWords(price, list.currency)} from ${dayWords(price.fromOn)}`)}.
        {said.note !== undefined && ` Left out: ${said.note}.`} <Link href="/prices">The price table</Link>
      </p>
    </section>
  );
}

function Co2e({ row, list }: EvidenceProps) {
  const { gwp, grams, co2eKg } = row;
  return (
    <section id="co2e" aria-labelledby="co2e-head">
      <h3 id="co2e-head">
        <b>
          CO<sub>2</sub> equivalent
        </b>{' '}
        <span>{co2eKg === null ? 'not known' : co2eWords(co2eKg)}</span>
      </h3>
      <p className={css['sum']}>
        {gwp === null && `${list.gwpSet} has no figure for ${row.refrigerant}, which is not the same as none.`}
        {gwp && grams !== null && co2eKg !== null && (
          <>
            {gramsWords(grams)} × {Number(gwp.value).toLocaleString('en-US')} ({list.gwpSet}, over 100 years) ={' '}
            {co2eKg.toLocaleString('en-US')} kg.
          </>
        )}
        {gwp && gwp.leftOut.length > 0 && ` Counted as nothing, for want of a figure: ${gwp.leftOut.join(', ')}.`}
      </p>
    </section>
  );
}

function Duties({ row, today }: { row: RepeatRow; today: string }) {
  if (row.duties.length === 0) return null;
  return (
    <section id="duties" aria-labelledby="duties-head">
      <h3 id="duties-head">
        Open duties <Link href={unitPath(row.unitId, row.letter)}>on the unit’s page</Link>
      </h3>
      <ul>
        {row.duties.map((duty) => {
          const { mark, word, left } = dutyLeft(duty, today);
          return (
            <li key={duty.id}>
              <State mark={mark}>{duty.title}</State>
              <small>
                {' '}
                {[word, left].filter(Boolean).join(', ')}
                {duty.dueOn !== null && `, by ${dayWords(duty.dueOn)}`}
              </small>
            </li>
          );
        })}
      </ul>
    </section>
  );
}

function Plan({ row, zone, plans }: EvidenceProps) {
  const { plan } = row;
  return (
    <section id="plan" aria-labelledby="plan-head">
      <h3 id="plan-head">Replacement</h3>
      {plan ? (
        <>
          <p>
            <State mark="planned">
              To be replaced{plan.byOn === null ? ', no day set' : ` by ${dayWords(plan.byOn)}`}
            </State>
          </p>
          <p>{plan.reason}</p>
          <p className={css['sum']}>
            {plan.plannedBy}, {dayWords(dayAt(plan.plannedAt, zone))}
          </p>
        </>
      ) : (
        <p className={css['sum']}>Not planned.</p>
      )}
      {plans && <PlanReplacement circuitId={row.circuitId} tag={row.tag} plan={plan} />}
    </section>
  );
}

/** What every figure of one circuit's row rests on, down to the facts. */
export function Evidence(props: EvidenceProps) {
  const { row, list, unit } = props;
  const gas = gasSaid(row, unit);
  return (
    <aside className={css['aside']} aria-label={`What the figures of ${row.tag} rest on`}>
      <header>
        <h2>
          <span className="id">{row.tag}</span> {row.site}
        </h2>
        <p className={css['sum']}>
          {row.customer}. Watched since {dayWords(row.watched.firstDay)}: {rateWords(row.rate)}, with{' '}
          {Math.round(row.rate.confidence * 100)} % confidence.
          {row.next &&
            ` Next top-off between ${dayWords(row.next.earliest)} and ${dayWords(row.next.latest)} in ${row.next.percent} of 100 cases. ${row.next.assumption}`}
        </p>
      </header>
      <section id="additions" aria-labelledby="additions-head">
        <h3 id="additions-head">
          Additions <span>{gas.text}</span>
        </h3>
        <p className={css['sum']}>
          Net of each visit, newest first; {shareWords(row.sharePercent)} of the full charge in top-offs.
        </p>
        <Additions {...props} />
      </section>
      <Cost {...props} />
      <Co2e {...props} />
      <Duties row={row} today={list.window.lastDay} />
      <Plan {...props} />
    </aside>
  );
}
