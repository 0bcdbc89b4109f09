import type { Route } from 'next';
import type { ReactNode } from 'react';
import { ButtonLink } from '../ui/button-link.tsx';
import { FilterForm, type FilterChoice } from '../ui/filter-form.tsx';
import { isFiltered, queryText, type ListQuery } from './list-query.ts';
import { RefreshOnChange } from './refresh-on-change.tsx';
import css from './office.module.css';

export interface ListFrameProps {
  readonly title: string;
  readonly lead: string;
  readonly path: string;
  readonly filterLabel: string;
  readonly choices?: readonly FilterChoice[];
  readonly asked: ListQuery;
  /** Cursor of the next page, if there is one. */
  readonly next: string | null;
  readonly actions?: ReactNode;
  readonly children: ReactNode;
}

/** The frame of a filtered list, a page at a time. */
export function ListFrame(props: ListFrameProps) {
  const { title, lead, path, filterLabel, choices, asked, next, actions, children } = props;
  const pageAt = (after: string): Route => `${path}${queryText({ ...asked, after })}` as Route;
  return (
    <main className={css['page']}>
      <RefreshOnChange />
      <header className={css['head']}>
        <h1>{title}</h1>
        <p className={css['lead']}>{lead}</p>
        <div className={css['bar']}>
          <FilterForm
            key={queryText({ ...asked, after: '' })}
            {...{ action: path, label: filterLabel, query: asked.query, choices }}
          />
          {isFiltered(asked) && <ButtonLink href={path as Route}>Show all</ButtonLink>}
          {actions && <div className={css['actions']}>{actions}</div>}
        </div>
      </header>
      <div className={css['list']}>{children}</div>
      {(next !== null || asked.after !== '') && (
        <nav className={css['pages']} aria-label="Pages">
          <div className={css['bar']}>
            {asked.after !== '' && <ButtonLink href={pageAt('')}>First page</ButtonLink>}
            {next !== null && <ButtonLink href={pageAt(next)}>Next page</ButtonLink>}
          </div>
        </nav>
      )}
    </main>
  );
}
