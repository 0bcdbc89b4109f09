import css from './leaving.module.css';

export interface ProgressProps {
  readonly words: string;
  readonly done: number;
  /** 0 while it is not known. */
  readonly total: number;
}

/** How far something is that takes minutes. */
export function Progress({ words, done, total }: ProgressProps) {
  return (
    <label className={css['progress']}>
      <span>
        {words}
        {total > 1 && <small> {Math.floor((done / total) * 100)} %</small>}
      </span>
      {total > 0 ? <progress value={done} max={total} /> : <progress />}
    </label>
  );
}
