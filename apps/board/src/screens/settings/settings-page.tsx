import type { ReactNode } from 'react';
import css from './settings.module.css';

export interface SettingsPageProps {
  readonly title: string;
  readonly lead: string;
  readonly actions?: ReactNode;
  readonly children: ReactNode;
}
/** One page of the settings under its own name. */
export function SettingsPage({ title, lead, actions, children }: SettingsPageProps) {
  return (
    <main>
      <header className={css['head']}>
        <div className={css['title']}>
          <h1>{title}</h1>
          {actions}
        </div>
        <p className={css['lead']}>{lead}</p>
      </header>
      {children}
    </main>
  );
}

export function Part({ id, title, children }: { id: string; title: string; children: ReactNode }) {
  return (
    <section className={css['part']} aria-labelledby={id}>
      <h2 id={id}>{title}</h2>
      {children}
    </section>
  );
}
