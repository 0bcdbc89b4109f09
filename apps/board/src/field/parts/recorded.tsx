'use client';
import type { FactView } from '@ullage/contracts';
import { Shape } from '../../ui/state.tsx';
import type { Queued } from '../outbox.ts';
import { useVisit } from '../visit-context.tsx';
import { netWords, standing } from '../weights.ts';
import { clock } from '../words.ts';
import { type NamedPhoto, PhotoStrip } from './photo-strip.tsx';
import { detailOf } from '../fact-words.ts';
import { enteredWords, type Weighed } from '../sums.ts';
import css from './step.module.css';

interface RecordedProps {
  readonly facts: readonly FactView[];
  readonly queued: readonly Queued[];
  readonly onCorrect?: ((fact: FactView) => void) | undefined;
}

function CorrectionLine({ correction, weights }: { correction: FactView; weights: Weighed }) {
  const { view } = useVisit();
  const why = correction.body['why'];
  return (
    <p className={css['source']}>
      Corrected {clock(correction.happenedAt, view.site.timeZone)} to {enteredWords(weights.before)} and{' '}
      {enteredWords(weights.after)}
      {typeof why === 'string' && `: ${why}`}. The first stays in the record.
    </p>
  );
}

function FactRow({ fact, onCorrect }: { fact: FactView; onCorrect: RecordedProps['onCorrect'] }) {
  const { view } = useVisit();
  const at = clock(fact.happenedAt, view.site.timeZone);
  const stands = standing(fact, view.facts);
  const weights = stands?.said;
  const correction = view.facts.find(({ id }) => id === stands?.last);
  const lead = netWords(fact, view.facts) ?? detailOf(fact);
  return (
    <li>
      <Shape mark="done" size={15} />
      <div>
        <p>
          <b>
            {fact.title}
            {lead !== undefined && `: ${lead}`}
          </b>
        </p>
        {fact.summary !== '' && <p>{fact.summary}</p>}
        <PhotoStrip photos={fact.photos} of={fact.title.toLowerCase()} />
        {correction && weights && <CorrectionLine correction={correction} weights={weights} />}
        <p className={css['source']}>
          {at}, {fact.by}
        </p>
      </div>
      {onCorrect && weights && (
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

/** The photos a command names; they are on this phone or on their way. */
function photosIn({ envelope }: Queued): readonly NamedPhoto[] {
  const named: unknown = (envelope.body as { photos?: unknown } | null)?.photos;
  if (!Array.isArray(named)) return [];
  return named.filter((hash) => typeof hash === 'string').map((hash) => ({ hash, state: 'complete' }));
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
        <PhotoStrip photos={photosIn(queued)} of="what waits here" />
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
