import css from './skeleton.module.css';

/** Still lines where a page's first data will stand. Never over data that is known already. */
export function Skeleton({ label, lines = 6 }: { label: string; lines?: number }) {
  return (
    <div className={css['skeleton']} role="status">
      <span className="spoken">{label}</span>
      {Array.from({ length: lines }, (_, i) => (
        <i key={i} style={{ width: `${[38, 72, 64, 80, 56, 70][i % 6]}%` }} />
      ))}
    </div>
  );
}
