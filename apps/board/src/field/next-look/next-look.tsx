'use client';
import type { SearchFacts } from '@ullage/contracts';
import { LOOK_METHODS, whereToLook } from '@ullage/trail';
import type { NextLook as Look, WhereToLook } from '@ullage/trail';
import { useVisit } from '../visit-context.tsx';
import { searchNow } from './search-now.ts';
import css from './next-look.module.css';

const methodWords = (id: string): string => LOOK_METHODS.find((method) => method.id === id)?.words ?? id;

export interface NextLookProps {
  /** As the form says it: another state of the unit makes other looks worth it. */
  readonly unitState: SearchFacts['unitState'];
  /** Fills the form with a look. */
  readonly onTake: (look: Look) => void;
}

/** Where to look next, worked out on the phone, with or without a signal. */
export function NextLook({ unitState, onTake }: NextLookProps) {
  const { view, glance, sync } = useVisit();
  const { instruments } = view;
  const here = { circuitId: glance.circuitId, queued: sync.queued, instruments, unitState };
  const answer = whereToLook(searchNow(glance.search, here));
  const [first, ...then] = answer.looks;
  return (
    <section className={css['next']} aria-labelledby="next-look">
      <h2 id="next-look">Where to look next</h2>
      <div aria-live="polite" className={css['first']}>
        {first ? <First look={first} /> : <p>Nothing is left that would show more as things stand.</p>}
        {answer.advice !== null && <p>{answer.advice}</p>}
      </div>
      {first && (
        <button type="button" className={css['take']} onClick={() => onTake(first)}>
          Fill in this look
        </button>
      )}
      <Stops answer={answer} />
      {then.length > 0 && <Then looks={then} />}
      <p className={css['source']}>A suggestion from counts and chances. What you see on site comes first.</p>
    </section>
  );
}

function First({ look }: { look: Look }) {
  return (
    <>
      <p className={css['place']}>{look.words}</p>
      <p className={css['how']}>
        {methodWords(look.method)}, <span className="fig">{look.minutes} min</span>
      </p>
      <p>{look.why}</p>
    </>
  );
}

function Then({ looks }: { looks: readonly Look[] }) {
  return (
    <>
      <h3>If that is clear</h3>
      <ol className={css['then']}>
        {looks.map((look) => (
          <li key={look.id}>
            <span>
              {look.words}
              <small>{methodWords(look.method)}</small>
            </span>
            <b className="fig">{look.minutes} min</b>
          </li>
        ))}
      </ol>
    </>
  );
}

/** What stands against the two methods that are always in the van, and what can hurt. */
function Stops({ answer }: { answer: WhereToLook }) {
  const told = answer.notNow.filter(
    ({ methods, hurts }) => hurts || methods.includes('electronic') || methods.includes('soap'),
  );
  if (told.length === 0) return null;
  return (
    <ul className={css['stops']}>
      {told.map(({ text, hurts }) => (
        <li key={text} data-hurts={hurts || undefined}>
          {text}
        </li>
      ))}
    </ul>
  );
}
