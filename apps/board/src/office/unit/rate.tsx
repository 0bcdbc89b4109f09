import type { CalculationView, CircuitView } from '@ullage/contracts';
import Link from 'next/link';
import { OverLimitBar } from '../../pictures/over-limit-bar.tsx';
import { DefinitionList } from '../../ui/definition-list.tsx';
import { State } from '../../ui/state.tsx';
import { flagWords } from '../duty-left.ts';
import { sheetPath } from '../link-to.ts';
import { massWords } from '../masses.ts';
import { Reasons, Section } from '../section.tsx';
import { dayCount, dayWords } from '../when.ts';
import css from '../office.module.css';

const verdict = (over: boolean, limit: number): string => `${over ? 'over' : 'not over'} ${limit} %`;

/** The other reading of the law. Where it turns the verdict, that is said before anything else. */
function Alternative({ calculation }: { calculation: CalculationView }) {
  const { alternative, thresholdPercent: limit, over } = calculation;
  if (!alternative) return null;
  const turns = alternative.over !== over;
  return (
    <p className={turns ? css['first'] : undefined}>
      <State mark="unsure">{turns ? 'Two readings, two verdicts' : 'Not settled in law'}</State>:{' '}
      {alternative.why.replace(/^Not settled in law: (.)/, (_, first: string) => first.toUpperCase())} That way the rate
      is {alternative.ratePercent} %, {verdict(alternative.over, limit)}
      {turns ? '; we count the net, below.' : ': the same verdict.'}
    </p>
  );
}

function Earlier({ calculations }: { calculations: readonly CalculationView[] }) {
  if (calculations.length === 0) return null;
  return (
    <details className={css['more']}>
      <summary>Earlier calculations</summary>
      <ul>
        {calculations.map((one) => (
          <li key={one.id}>
            <Link href={sheetPath(one.id)}>Sheet {one.number}</Link>, {dayWords(one.onDay)}: {one.ratePercent} %,{' '}
            {verdict(one.over, one.thresholdPercent)}
            {!one.standing && ', replaced after a correction'}
          </li>
        ))}
      </ul>
    </details>
  );
}

const inputsOf = (latest: CalculationView) => [
  { term: 'Day', value: dayWords(latest.onDay) },
  { term: 'Gas counted', value: massWords(latest.leakMass) },
  { term: 'Full charge', value: massWords(latest.fullCharge) },
  {
    term: 'Days',
    value: latest.substituted ? '365, standing in for the days that passed' : dayCount(latest.days),
  },
  { term: 'Exact', value: <span className="fig">{latest.exact}</span> },
  { term: 'Method', value: latest.method },
  { term: 'Clause', value: latest.clause },
  { term: 'Rulebook', value: `${latest.rulebookTitle}, edition of ${dayWords(latest.rulebookVersion)}` },
];

export function Rate({ circuit }: { circuit: CircuitView }) {
  const { latest, calculations } = circuit;
  if (!latest)
    return (
      <Section id="rate" title="Leak rate">
        <p>No rate yet: it is calculated when a weighed addition is recorded.</p>
      </Section>
    );
  const turns = latest.alternative !== null && latest.alternative.over !== latest.over;
  const said = verdict(latest.over, latest.thresholdPercent);
  const value = Number(latest.ratePercent);
  return (
    <Section id="rate" title="Leak rate">
      {turns && <Alternative calculation={latest} />}
      <p className={css['claim']}>
        <b>{latest.ratePercent} % a year</b>, {said}.
      </p>
      <OverLimitBar
        value={value}
        limit={latest.thresholdPercent}
        over={latest.over}
        valueText={`${latest.ratePercent} %`}
        limitText={`${latest.thresholdPercent} %`}
        unit="% a year"
        label={`Leak rate ${latest.ratePercent} % a year, ${said}`}
      />
      {latest.substituted && <p>First calculation under the rule: 365 days stand in for the days that passed.</p>}
      {!turns && <Alternative calculation={latest} />}
      {latest.flags
        .filter((flag) => flag !== 'not-settled' && flag !== 'first-calculation')
        .map((flag) => (
          <p key={flag}>
            <State mark="unsure">{flagWords(flag)}</State>
          </p>
        ))}
      <Reasons reasons={latest.reasons} />
      <details className={css['more']}>
        <summary>Inputs</summary>
        <DefinitionList items={inputsOf(latest)} />
      </details>
      <p>
        <Link href={sheetPath(latest.id)}>Leak-rate sheet {latest.number}</Link>
        <span className="quiet">, for the owner or operator</span>
      </p>
      <Earlier calculations={calculations.filter((one) => one.id !== latest.id)} />
    </Section>
  );
}
