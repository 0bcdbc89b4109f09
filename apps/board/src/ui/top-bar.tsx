import type { Route } from 'next';
import Link from 'next/link';
import type { ReactNode } from 'react';
import { FirmMark } from './firm-mark.tsx';
import css from './top-bar.module.css';

export interface NavItem {
  readonly name: string;
  readonly href: Route;
}
export interface TopBarProps {
  readonly firm: string;
  readonly nav: readonly NavItem[];
  /** The `href` of the place we are in. */
  readonly current?: string | undefined;
  readonly find?: ReactNode;
  /** The person's menu, or their name. */
  readonly person?: ReactNode;
  readonly line?: ReactNode;
  /** One sentence above everything, for a contractor that is not real. */
  readonly banner?: ReactNode;
}

export function TopBar({ firm, nav, current, find, person, line, banner }: TopBarProps) {
  return (
    <>
      {banner !== undefined && <p className={css['banner']}>{banner}</p>}
      <header className={css['top']}>
        <Link className={css['firm']} href="/">
          <FirmMark />
          <span title={firm}>{firm}</span>
        </Link>
        {nav.length > 0 && (
          <nav className={css['nav']} aria-label="Main">
            {nav.map(({ name, href }) => (
              <Link key={href} href={href} aria-current={href === current ? 'page' : undefined}>
                {name}
              </Link>
            ))}
          </nav>
        )}
        <div className={css['find']}>{find}</div>
        <div className={css['person']}>{person}</div>
        <div className={css['line']}>{line}</div>
      </header>
    </>
  );
}
