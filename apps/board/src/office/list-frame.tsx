import type { Route } from 'next';
import type { ReactNode } from 'react';
import { ButtonLink } from '../ui/button-link.tsx';
import { FilterForm } from '../ui/filter-form.tsx';
import { queryText, type ListQuery } from './list-query.ts';
import { RefreshOnChange } from './refresh-on-change.tsx';
import css from './office.module.css';

export interface ListFrameProps {
  readonly title: string;
  readonly lead: string;
  readonly path: string;
  readonly filterLabel: string;
  readonly asked: ListQuery;
  /** Cursor of the next page, if there is one. */
  readonly next: string | null;
  readonly actions?: ReactNode;
  readonly children: ReactNode;
}

/** The frame of a filtered list, a page at a time. */
export function ListFrame({ title, lead, path, filterLabel, asked, next, actions, children }: ListFrameProps) {
  return (
    <main className={css['page']}>
      <RefreshOnChange />
      <header className={css['head']}>
        <h1>{title}</h1>
        <p className={css['lead']}>{lead}</p>
        <div className={css['bar']}>
          <FilterForm key={asked.query} action={path} label={filterLabel} query={asked.query} />
          {actions}
        </div>
      </header>
      <div className={css['list']}>{children}</div>
      {(next !== null || asked.after !== '') && (
        <nav className={css['pages']} aria-label="Pages">
          <div className={css['bar']}>
            {asked.after !== '' && (
              <ButtonLink href={`${path}${queryText({ query: asked.query, after: '' })}` as Route}>
                First page
              </ButtonLink>
            )}
            {next !== null && (
              <ButtonLink href={`${path}${queryText({ query: asked.query, after: next })}` as Route}>
                Next page
              </ButtonLink>
            )}
          </div>
        </nav>
      )}
    </main>
  );
}
