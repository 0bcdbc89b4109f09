import type { Route } from 'next';
import Link from 'next/link';
import type { ReactNode } from 'react';
import { EmptyState } from '../../ui/blank.tsx';
import { RefreshOnChange } from '../refresh-on-change.tsx';
import office from '../office.module.css';
import css from './costs.module.css';

const SCREENS: readonly { readonly name: string; readonly href: Route }[] = [
  { name: 'Repeat list', href: '/repeats' as Route },
  { name: 'Gas to bill', href: '/gas-used' as Route },
  { name: 'Prices', href: '/prices' as Route },
];

export interface CostsFrameProps {
  readonly title: string;
  readonly lead: ReactNode;
  readonly current: Route;
  /** Under the lead: choices, buttons. */
  readonly bar?: ReactNode;
  readonly children: ReactNode;
}

/** The frame of the manager's screens, each with the way to the others. */
export function CostsFrame({ title, lead, current, bar, children }: CostsFrameProps) {
  return (
    <main className={office['page']}>
      <RefreshOnChange />
      <header className={office['head']}>
        <div className={office['title']}>
          <h1>{title}</h1>
          <nav className={office['switch']} aria-label="Costs">
            {SCREENS.map(({ name, href }) => (
              <Link key={href} href={href} aria-current={href === current ? 'page' : undefined}>
                {name}
              </Link>
            ))}
          </nav>
        </div>
        <p className={office['lead']}>{lead}</p>
        {bar !== undefined && <div className={css['bar']}>{bar}</div>}
      </header>
      {children}
    </main>
  );
}

/** For whoever opened an address that is none of theirs. */
export function CostsClosed() {
  return (
    <main className={office['page']}>
      <EmptyState as="h1" title="Costs are kept by owner and manager.">
        <p>An auditor sees them too. Whoever needs them asks one of these.</p>
      </EmptyState>
    </main>
  );
}

/** One choice of a few, as links: the address says which. */
export function Choice({ label, parts }: ChoiceProps) {
  return (
    <div className={css['choice']}>
      <span id={`choice-${label.replaceAll(' ', '-')}`}>{label}</span>
      <nav className={office['switch']} aria-labelledby={`choice-${label.replaceAll(' ', '-')}`}>
        {parts.map(({ text, href, chosen }) => (
          <Link key={text} href={href} aria-current={chosen ? 'true' : undefined} scroll={false}>
            {text}
          </Link>
        ))}
      </nav>
    </div>
  );
}
interface ChoiceProps {
  readonly label: string;
  readonly parts: readonly { readonly text: string; readonly href: Route; readonly chosen: boolean }[];
}
