import css from '../parts/step.module.css';

/** The figures behind a verdict, by the pencil: shown when asked for. */
export function Reasons({ reasons }: { reasons: readonly { readonly text: string; readonly source: string }[] }) {
  return (
    <details className={css['zone']}>
      <summary>
        Figures and reasons <span>{reasons.length}</span>
      </summary>
      <ul className={css['notes']}>
        {reasons.map(({ text, source }) => (
          <li key={text}>
            {text} <cite>{source}</cite>
          </li>
        ))}
      </ul>
    </details>
  );
}
