import type { CircuitView, DutyView } from '@ullage/contracts';
import Link from 'next/link';
import { Shape, State } from '../../ui/state.tsx';
import { dutyLeft, flagWords, responsibleWords } from '../duty-left.ts';
import { FactName } from '../fact-name.tsx';
import { visitPath } from '../link-to.ts';
import { Section, WhoRules } from '../section.tsx';
import { dayWords, momentWords } from '../when.ts';
import type { SiteDay } from './life.ts';
import css from '../office.module.css';

function Evidence({ duty, zone }: { duty: DutyView; zone: string }) {
  if (duty.dischargedBy.length === 0) return null;
  return (
    <p>
      Discharged by{' '}
      {duty.dischargedBy.map((fact, i) => (
        <span key={fact.id}>
          {i > 0 && '; '}
          <FactName fact={fact} />, {momentWords(fact.happenedAt, zone)}
        </span>
      ))}
      .
    </p>
  );
}

function DutyItem({ duty, at: { today, zone } }: { duty: DutyView; at: SiteDay }) {
  const { mark, word, left } = dutyLeft(duty, today);
  return (
    <li id={`duty-${duty.id}`} data-done={mark === 'done' || undefined}>
      <Shape mark={mark} size={14} />
      <div>
        <p>
          <b>{duty.title}</b>
          {duty.dueOn !== null && ` by ${dayWords(duty.dueOn)}`}
          {duty.provisional && ', provisional: normal operation is not stated yet'}
        </p>
        <p>
          <b>{word}</b>
          {left !== '' && `, ${left}`}
        </p>
        {mark !== 'done' && <p className="quiet">{duty.why}</p>}
        {duty.flags.map((flag) => (
          <p key={flag}>
            <State mark="unsure">{flagWords(flag)}</State>
          </p>
        ))}
        <Evidence duty={duty} zone={zone} />
        <p className="quiet">
          <cite>{duty.clause}</cite>; responsible: {responsibleWords(duty.responsible)}
          {duty.visitId !== null && (
            <>
              ; <Link href={visitPath(duty.visitId)}>return visit</Link>
            </>
          )}
        </p>
      </div>
    </li>
  );
}

/** What the law asks of this circuit: what is open first, by date; what is done folded below. */
export function Duties({ circuit, at }: { circuit: CircuitView; at: SiteDay }) {
  const isDone = (duty: DutyView): boolean => duty.state === 'discharged' || duty.state === 'discharged-late';
  const shown = circuit.duties.filter((duty) => duty.state !== 'withdrawn');
  const [open, done] = [shown.filter((duty) => !isDone(duty)), shown.filter(isDone)];
  return (
    <Section id="duties" title="Duties">
      {shown.length === 0 && <p>The law asks nothing of this circuit now.</p>}
      {shown.length > 0 && open.length === 0 && <p>Nothing is open.</p>}
      {[open, done].map(
        (list, i) =>
          list.length > 0 && (
            <ul key={i} className={css['duties']}>
              {list.map((duty) => (
                <DutyItem key={duty.id} duty={duty} at={at} />
              ))}
            </ul>
          ),
      )}
      <WhoRules />
    </Section>
  );
}
