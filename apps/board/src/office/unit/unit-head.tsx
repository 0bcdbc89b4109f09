import type { CircuitView, UnitView } from '@ullage/contracts';
import Link from 'next/link';
import { State } from '../../ui/state.tsx';
import { DoubtPath } from '../doubt-card.tsx';
import { dutyLeft } from '../duty-left.ts';
import { statementPath, unitPath } from '../link-to.ts';
import { gramsWords, massWords } from '../masses.ts';
import { dayWords } from '../when.ts';
import { KnownMenu } from './known/known-menu.tsx';
import css from '../office.module.css';

/** The nearest open duty, or that nothing is open: the first thing to know about a circuit. */
function Standing({ circuit, today }: { circuit: CircuitView; today: string }) {
  const [next] = circuit.duties
    .filter((duty) => duty.state === 'open' && duty.dueOn !== null)
    .sort((a, b) => ((a.dueOn ?? '') < (b.dueOn ?? '') ? -1 : 1));
  if (!next?.dueOn) return <State mark="done">No duty is open</State>;
  const { mark, word, left } = dutyLeft(next, today);
  return (
    <p>
      <State mark={mark}>{word}</State>{' '}
      <a className="quiet" href={`#duty-${next.id}`}>
        {next.title.toLowerCase()} by {dayWords(next.dueOn)}, {left}
      </a>
    </p>
  );
}

function Circuits({ unit, shown }: { unit: UnitView; shown: CircuitView }) {
  if (unit.circuits.length < 2) return null;
  return (
    <nav className={css['switch']} aria-label="Circuits">
      {unit.circuits.map((circuit) => (
        <Link
          key={circuit.id}
          href={unitPath(unit.id, circuit.letter)}
          aria-current={circuit.id === shown.id ? 'page' : undefined}
          scroll={false}
        >
          Circuit {circuit.letter}, {massWords(circuit.fullCharge.mass)}
        </Link>
      ))}
    </nav>
  );
}

/** That its gas is mixed or in doubt, and by which way the doubt came. */
function Doubts({ circuit, zone }: { circuit: CircuitView; zone: string }) {
  return (
    <>
      {circuit.mixed && (
        <p>
          <State mark="refused">Mixed gas</State>: more than 0.5 % by mass of another gas is in it, by the books.
        </p>
      )}
      {circuit.doubts.map((doubt) => (
        <div key={doubt.id}>
          <p>
            <State mark={doubt.confirmed ? 'over' : 'unsure'}>Its gas is in doubt</State>: {doubt.text}
          </p>
          <DoubtPath path={doubt.path} zone={zone} />
        </div>
      ))}
    </>
  );
}

export interface UnitHeadProps {
  readonly unit: UnitView;
  readonly circuit: CircuitView;
  readonly today: string;
  readonly mayPutRight: boolean;
}

/** Site, gas, use, charge, law: what a circuit is, in one breath. */
export function UnitHead({ unit, circuit, today, mayPutRight }: UnitHeadProps) {
  const { site } = unit;
  const books = circuit.rulebooks.filter((book) => book.inScope).map((book) => book.title);
  return (
    <header className={css['head']}>
      <div className={css['title']}>
        <h1>
          <span className="id">{circuit.tag}</span> {unit.description}
        </h1>
        <div className={css['standing']}>
          <Standing circuit={circuit} today={today} />
          <Circuits unit={unit} shown={circuit} />
          {mayPutRight && <KnownMenu site={site} circuit={circuit} today={today} />}
        </div>
      </div>
      <ul className={css['facts']}>
        <li>
          <b>{site.name}</b>
          {site.name !== site.address && <>, {site.address}</>},{' '}
          {site.elevationAssumed ? 'height not known, sea level taken' : `${site.elevationM.toLocaleString('en-US')} m`}
        </li>
        <li>
          <b>{circuit.refrigerant}</b> {circuit.useText}
        </li>
        <li>
          full charge <b>{massWords(circuit.fullCharge.mass)}</b>, {circuit.fullCharge.methodText}
          {circuit.fullCharge.rangeText !== null && <> ({circuit.fullCharge.rangeText})</>}
        </li>
        {circuit.accountId !== null && (
          <li>
            <Link href={statementPath(circuit.accountId)}>{gramsWords(circuit.balanceGrams)}</Link> by the books
          </li>
        )}
        <li>
          {books.length === 0 ? 'no rulebook covers it' : books.join('; ')}, {site.leakRateMethod}
        </li>
        <li>for {site.customer.name}</li>
        {site.contact !== null && (
          <li>
            contact {site.contact.name}
            {site.contact.phone !== null && <>, {site.contact.phone}</>}
          </li>
        )}
        {site.accessNotes !== null && <li>access: {site.accessNotes}</li>}
      </ul>
      <Doubts circuit={circuit} zone={site.timeZone} />
    </header>
  );
}
