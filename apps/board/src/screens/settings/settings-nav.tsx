'use client';
import type { Role } from '@ullage/contracts';
import type { Route } from 'next';
import Link from 'next/link';
import { usePathname } from 'next/navigation';
import { settingsPages } from './pages.ts';
import css from './settings.module.css';

/** The pages of the settings, side by side with the one that is open. */
export function SettingsNav({ role }: { role: Role }) {
  const path = usePathname();
  return (
    <nav className={css['nav']} aria-label="Settings">
      <p>Settings</p>
      <ul>
        {settingsPages(role).map(({ href, name }) => (
          <li key={href}>
            <Link href={href as Route} aria-current={path === href ? 'page' : undefined}>
              {name}
            </Link>
          </li>
        ))}
      </ul>
    </nav>
  );
}
