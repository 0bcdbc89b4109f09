import { Shape } from './state.tsx';
import css from './live-state.module.css';

/** Whether what is shown is current, in a shape and words, announced when it changes. */
export function LiveState({ live }: { live: boolean }) {
  return (
    <span role="status" className={css['live']} data-live={live}>
      <Shape mark={live ? 'done' : 'offline'} />
      {live ? 'Up to date' : 'Connection lost: last known'}
    </span>
  );
}
