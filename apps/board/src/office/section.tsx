import type { ReactNode } from 'react';
import css from './office.module.css';

/** A part of an office page under its own name. */
export function Section({
  id,
  title,
  note,
  children,
}: {
  id: string;
  title: string;
  note?: ReactNode;
  children: ReactNode;
}) {
  return (
    <section className={css['section']} aria-labelledby={id}>
      <h2 id={id}>
        {title}
        {note !== undefined && <small>{note}</small>}
      </h2>
      {children}
    </section>
  );
}

/** Every screen that shows a duty says who rules in the end. */
export function WhoRules() {
  return (
    <p className={css['rules']}>Dates follow the rulebook named beside them. Local codes and licensed practice rule.</p>
  );
}

/** Each line of a sum with where it comes from. */
export function Reasons({ reasons }: { reasons: readonly { readonly text: string; readonly source: string }[] }) {
  return (
    <ul className={css['reasons']}>
      {reasons.map(({ text, source }) => (
        <li key={text}>
          {text} <cite>{source}</cite>
        </li>
      ))}
    </ul>
  );
}
