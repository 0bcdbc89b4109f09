import type { OneAwayView } from '@ullage/contracts';
import type { MassUnit } from '@ullage/units';
import Link from 'next/link';
import { Shape } from '../../ui/state.tsx';
import { unitPath } from '../link-to.ts';
import { aboutWords, atMostWords } from '../masses.ts';
import { dayWords } from '../when.ts';
import css from './costs.module.css';
import { basisPath } from './evidence.tsx';

type Item = OneAwayView['items'][number];

/** The additions a size was taken from, each leading to its fact. */
function From({ item, size }: { item: Item; size: Item['usual'] }) {
  return size.from.map(({ factIds: [factId = ''], day, visitId }, i) => (
    <span key={factId}>
      {i > 0 && ', '}
      <Link href={basisPath(item, { visitId, factId })}>{dayWords(day)}</Link>
    </span>
  ));
}

function Near({ item, unit }: { item: Item; unit: MassUnit }) {
  const { usual, largest, reachedBy } = item;
  const size = reachedBy === 'usual' ? usual : largest;
  return (
    <li>
      <Shape mark="over" />
      <div>
        <Link className="id" href={unitPath(item.unitId, item.letter)}>
          {item.tag}
        </Link>{' '}
        {item.site}
        <p>
          More than <b className={css['keep']}>{atMostWords(item.headroomGrams, unit)}</b> today is over{' '}
          {item.thresholdPercent} %; {reachedBy === 'usual' ? 'usually' : 'at most'}{' '}
          <span className={css['keep']}>{aboutWords(size.grams, unit)}</span>.
        </p>
        <small>
          {reachedBy === 'usual' ? 'Usual size from ' : 'Largest on '}
          <From item={item} size={size} />. {item.clause}
        </small>
      </div>
    </li>
  );
}

/** Circuits that one more addition of their usual size takes over the line. */
export function OneAway({ near, unit }: { near: OneAwayView; unit: MassUnit }) {
  return (
    <section className={css['near']} aria-labelledby="near">
      <h2 id="near">One addition from the line</h2>
      {near.items.length === 0 ? (
        <p className="quiet">
          No circuit that is under its threshold would pass it with an addition of the size it had before.
        </p>
      ) : (
        <ul>
          {near.items.map((item) => (
            <Near key={item.circuitId} item={item} unit={unit} />
          ))}
        </ul>
      )}
      {near.total > near.items.length && (
        <p className="quiet">
          The {near.items.length} nearest of {near.total}.
        </p>
      )}
    </section>
  );
}
