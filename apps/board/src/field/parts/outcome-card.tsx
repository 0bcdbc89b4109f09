'use client';
import type { VisitView } from '@ullage/contracts';
import { Shape } from '../../ui/state.tsx';
import css from './step.module.css';

/** The rate as the books have it, after the charge. */
export function OutcomeCard({ outcome }: { outcome: NonNullable<VisitView['outcome']> }) {
  return (
    <section className={css['card']} aria-label="Leak rate">
      <h2>
        <Shape mark={outcome.over ? 'over' : 'under'} size={15} />
        {outcome.text}
      </h2>
    </section>
  );
}
