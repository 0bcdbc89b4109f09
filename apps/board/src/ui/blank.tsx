import type { ReactNode } from 'react';
import { Actions } from './button.tsx';
import { Shape } from './state.tsx';
import css from './notice.module.css';

export interface BlankProps {
  readonly title: string;
  /** `h1` when this is all the page has. */
  readonly as?: 'h1' | 'p';
  readonly children?: ReactNode;
  readonly actions?: ReactNode;
}

/** Nothing is here: says so as a fact, and what makes something appear. */
export function EmptyState({ title, as: Title = 'p', children, actions }: BlankProps) {
  return (
    <div className={css['blank']}>
      <Title className={css['say']}>{title}</Title>
      {children !== undefined && <div className={css['source']}>{children}</div>}
      {actions !== undefined && <Actions>{actions}</Actions>}
    </div>
  );
}

/** Something failed: what, what is safe, what to try. `reference` finds it in the log. */
export function ErrorState({
  title,
  as: Title = 'p',
  children,
  actions,
  reference,
}: BlankProps & { reference?: string | undefined }) {
  return (
    <div className={css['blank']} role="alert">
      <Title className={css['say']}>
        <Shape mark="refused" size={15} /> {title}
      </Title>
      {children !== undefined && <div className={css['source']}>{children}</div>}
      {actions !== undefined && <Actions>{actions}</Actions>}
      {reference !== undefined && (
        <p className={css['source']}>
          Reference <span className="id">{reference}</span>
        </p>
      )}
    </div>
  );
}
