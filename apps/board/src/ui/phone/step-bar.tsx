import css from './phone.module.css';

/** How far the work has come: `now` counts from 1. */
export function StepBar({ now, of }: { now: number; of: number }) {
  return (
    <div className={css['steps']} role="img" aria-label={`Step ${now} of ${of}`}>
      {Array.from({ length: of }, (_, i) => (
        <i key={i} data-is={i + 1 === now ? 'now' : i + 1 < now ? 'done' : undefined} />
      ))}
    </div>
  );
}
