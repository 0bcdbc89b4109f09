import type { UnitView } from '@ullage/contracts';
import { UnitLifeLine } from '../../pictures/unit-life-line.tsx';
import { EmptyState } from '../../ui/blank.tsx';
import { Landing } from '../landing.tsx';
import { RefreshOnChange } from '../refresh-on-change.tsx';
import { dayAt } from '../when.ts';
import { Duties } from './duties.tsx';
import { Headroom } from './headroom.tsx';
import { Explains, LeakPoints } from './leaks.tsx';
import { lifeOf } from './life.ts';
import { Rate } from './rate.tsx';
import { Additions, Events, Looks, Rulebooks, Visits } from './record.tsx';
import { UnitHead } from './unit-head.tsx';
import css from '../office.module.css';

export interface UnitPageProps {
  readonly unit: UnitView;
  readonly letter: string | undefined;
  readonly mayPutRight: boolean;
}

/** A unit's past on one line of time, what is left before the law's line, and what the law asks; circuit by circuit. */
export function UnitPage({ unit, letter, mayPutRight }: UnitPageProps) {
  const circuit = unit.circuits.find((one) => one.letter === letter) ?? unit.circuits[0];
  if (!circuit)
    return (
      <main className={css['page']}>
        <EmptyState as="h1" title={`${unit.tag} has no circuit yet.`}>
          <p>A call that names one adds it.</p>
        </EmptyState>
      </main>
    );
  const at = { zone: unit.site.timeZone, today: dayAt(unit.now, unit.site.timeZone) };
  return (
    <main className={css['page']}>
      <RefreshOnChange />
      <Landing />
      <UnitHead unit={unit} circuit={circuit} today={at.today} mayPutRight={mayPutRight} />
      <UnitLifeLine {...lifeOf(circuit, at)} label={`The life of ${circuit.tag} on one line of time`} />
      <details className={css['table']}>
        <summary>The same as a table</summary>
        <div>
          <Additions additions={circuit.additions} />
          <Events events={circuit.events} at={at} />
        </div>
      </details>
      <div className={css['thirds']}>
        <div>
          <Headroom circuit={circuit} />
          <Explains circuit={circuit} />
          <LeakPoints leakPoints={circuit.leakPoints} />
        </div>
        <div>
          <Rate circuit={circuit} />
          <Rulebooks rulebooks={circuit.rulebooks} decision={circuit.decision} />
        </div>
        <div>
          <Duties circuit={circuit} at={at} />
        </div>
      </div>
      <div className={css['halves']}>
        <div>
          <Looks looks={circuit.looks} />
        </div>
        <div>
          <Visits visits={unit.visits} at={at} />
        </div>
      </div>
    </main>
  );
}
