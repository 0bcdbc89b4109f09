'use client';
import { useVisit } from '../visit-context.tsx';
import css from './step.module.css';

/** Does what was found explain what is gone? The server's sentence; it never ends a search by itself. */
export function ExplainsCard() {
  const { view } = useVisit();
  if (view.explains === null) return null;
  return (
    <section className={css['card']} aria-label="Found against gone">
      <h2>{view.explains}</h2>
      <p className={css['source']}>
        Two leaks are common on old coils: go through the likely places before you charge.
      </p>
    </section>
  );
}
