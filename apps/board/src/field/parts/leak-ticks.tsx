'use client';
import type { LeakPointView } from '@ullage/contracts';
import { useVisit } from '../visit-context.tsx';
import { type Choice, sizeWords } from '../words.ts';
import type { Bound } from './bind.ts';
import { Ticks } from './fields.tsx';
import css from './step.module.css';

type State = LeakPointView['state'];

/** Leak points of the circuit in some states, and those that wait on this phone. */
export function useLeakChoices(states: readonly State[]): readonly Choice[] {
  const { view, glance, sync } = useVisit();
  const known = view.leakPoints
    .filter((point) => point.circuitId === glance.circuitId && states.includes(point.state))
    .map((point) => ({
      value: point.id,
      text: `${point.label} ${point.placeText}, ${point.where}`,
      note: sizeWords(point.lowGramsPerYear, point.highGramsPerYear),
    }));
  const kept = sync.queued
    .filter(({ envelope, place }) => envelope.schema === 'record-leak-point' && place.circuitId === glance.circuitId)
    .flatMap(({ makes, said }) => makes.map((id) => ({ value: id, text: said, note: 'waits on this phone' })));
  return [...known, ...kept.filter((one) => !known.some((point) => point.value === one.value))];
}

export function LeakTicks({
  states,
  ...bound
}: Bound<readonly string[]> & { readonly label: string; readonly states: readonly State[] }) {
  const { goTo } = useVisit();
  const choices = useLeakChoices(states);
  if (choices.length > 0) return <Ticks {...bound} choices={choices} />;
  return (
    <div className={css['stack']} id={bound.id} tabIndex={-1}>
      <b>{bound.label}</b>
      {bound.error !== undefined && <p className={css['wrong']}>{bound.error}</p>}
      <p className={css['source']}>No leak point of this circuit waits for this. Record where it leaks first.</p>
      <button type="button" className={css['small']} onClick={() => goTo('leaks')}>
        Record a leak point
      </button>
    </div>
  );
}
