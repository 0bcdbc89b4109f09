'use client';
import { Shape } from '../../ui/state.tsx';
import type { Typed } from '../check.ts';
import { netOf, overLimit } from '../sums.ts';
import css from './step.module.css';

/** What went into the cylinder, and whether it weighs more than it may. */
export function RecoverySum({ before, after, grossLimitKg }: RecoverySumProps) {
  const net = netOf(before, after, 'cylinder');
  const limit = grossLimitKg === null ? undefined : overLimit(after, grossLimitKg);
  if (limit?.over === true)
    return (
      <section className={css['card']} data-stop role="alert">
        <h2>
          <Shape mark="over" size={15} />
          {limit.text} over its gross limit
        </h2>
        <p>
          Warm liquid has no room and bursts it. Move gas into another cylinder before this one is carried anywhere;
          then save both.
        </p>
      </section>
    );
  if (net.is === 'not-yet') return null;
  return (
    <section className={css['sum']} aria-live="polite">
      <span>{net.is === 'net' ? 'Taken out' : 'The wrong way round: lighter by'}</span>
      <b className="fig">{net.text}</b>
      {limit && <small>{limit.text} below its gross limit</small>}
    </section>
  );
}
export interface RecoverySumProps {
  readonly before: Typed;
  readonly after: Typed;
  readonly grossLimitKg: number | null;
}
