import type { ReactNode } from 'react';
import css from './phone.module.css';

export interface PhoneShellProps {
  readonly title: ReactNode;
  readonly subtitle?: ReactNode;
  /** Where the arrow leads; without it there is none. */
  readonly onBack?: () => void;
  /** Right of the title: "4 of 12", or whose day it is. */
  readonly aside?: ReactNode;
  readonly steps?: ReactNode;
  /** The sync line: on every screen. */
  readonly sync: ReactNode;
  readonly children: ReactNode;
  /** Main button first; stays at the bottom, where the thumb is. */
  readonly foot?: ReactNode;
}

export function PhoneShell({ title, subtitle, onBack, aside, steps, sync, children, foot }: PhoneShellProps) {
  return (
    <div className={css['shell']}>
      <header>
        <div className={css['bar']}>
          {onBack && (
            <button type="button" aria-label="Back" onClick={onBack}>
              <svg width="20" height="20" viewBox="0 0 20 20" aria-hidden="true">
                <path d="M12.5 3.5 6 10l6.5 6.5" fill="none" stroke="currentColor" strokeWidth="2" />
              </svg>
            </button>
          )}
          <div className={css['title']}>
            <h1>{title}</h1>
            {subtitle !== undefined && <p>{subtitle}</p>}
          </div>
          <div className={css['aside']}>{aside}</div>
        </div>
        {steps}
        {sync}
      </header>
      <main>{children}</main>
      {foot !== undefined && <footer>{foot}</footer>}
    </div>
  );
}
