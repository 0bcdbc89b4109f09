'use client';
import type { FactView } from '@ullage/contracts';
import { Shape } from '../../ui/state.tsx';
import type { Queued } from '../outbox.ts';
import { useVisit } from '../visit-context.tsx';
import { clock } from '../words.ts';
import css from './step.module.css';

interface RecordedProps {
  readonly facts: readonly FactView[];
  readonly queued: readonly Queued[];
  readonly onCorrect?: ((fact: FactView) => void) | undefined;
}

const hasWeights = ({ body }: FactView): boolean => body['before'] !== undefined && body['after'] !== undefined;

function FactRow({ fact, onCorrect }: { fact: FactView; onCorrect: RecordedProps['onCorrect'] }) {
  const { view } = useVisit();
  const at = clock(fact.happenedAt, view.site.timeZone);
  const isOld = fact.correctedById !== null;
  return (
    <li data-old={isOld || undefined}>
      <Shape mark={isOld ? 'doubt' : 'done'} size={15} />
      <div>
        <p>
          <b>{fact.title}</b>
          {isOld && ' (corrected since; kept in the record)'}
        </p>
        {fact.summary !== '' && <p>{fact.summary}</p>}
        <p className={css['source']}>
          {at}, {fact.by}
        </p>
      </div>
      {onCorrect && !isOld && hasWeights(fact) && (
        <button type="button" onClick={() => onCorrect(fact)}>
          Correct
          <span className="spoken">
            {' '}
            {fact.title} of {at}
          </span>
        </button>
      )}
    </li>
  );
}

function QueuedRow({ queued }: { queued: Queued }) {
  const { view, port, now } = useVisit();
  const refused = queued.state === 'refused';
  const at = clock(queued.envelope.happenedAt || now(), view.site.timeZone);
  return (
    <li>
      <Shape mark={refused ? 'refused' : 'offline'} size={15} />
      <div>
        <p>
          <b>{queued.said}</b>
        </p>
        <p className={css['source']}>
          {at}, {refused ? `refused: ${queued.problem?.detail ?? queued.problem?.title ?? ''}` : 'waits on this phone'}
        </p>
      </div>
      {refused && (
        <button type="button" onClick={() => port.giveBack(queued.envelope.id)}>
          Put right
        </button>
      )}
    </li>
  );
}

/** What was recorded at this step, and what still waits on this phone. */
export function Recorded({ facts, queued, onCorrect }: RecordedProps) {
  if (facts.length + queued.length === 0) return null;
  return (
    <ul className={css['recorded']} aria-label="Recorded">
      {facts.map((fact) => (
        <FactRow key={fact.id} fact={fact} onCorrect={onCorrect} />
      ))}
      {queued.map((one) => (
        <QueuedRow key={one.envelope.id} queued={one} />
      ))}
    </ul>
  );
}
