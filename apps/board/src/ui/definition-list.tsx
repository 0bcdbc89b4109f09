import type { ReactNode } from 'react';
import css from './definition-list.module.css';

/** Names and what they are, in two columns. An item without a value is left out by whoever calls, or says why. */
export function DefinitionList({ items }: { items: readonly { readonly term: string; readonly value: ReactNode }[] }) {
  return (
    <dl className={css['list']}>
      {items.map(({ term, value }) => (
        <div key={term}>
          <dt>{term}</dt>
          <dd>{value}</dd>
        </div>
      ))}
    </dl>
  );
}
