import type { Role } from '@ullage/contracts';

export interface SettingsPage {
  readonly href: `/settings/${string}`;
  readonly name: string;
}
/** What somebody finds in the settings. Who reads and who changes is the server's to say; here is what is offered. */
export const settingsPages = (role: Role): readonly SettingsPage[] => [
  { href: '/settings/sign-in', name: 'Your sign-in' },
  { href: '/settings/units', name: 'Units and limits' },
  { href: '/settings/locations', name: 'Locations' },
  { href: '/settings/instruments', name: 'Instruments' },
  ...(role === 'owner' || role === 'manager'
    ? [{ href: '/settings/people', name: 'Sign-ins of people' } as const]
    : []),
  ...(role === 'owner' || role === 'manager' || role === 'auditor'
    ? [
        { href: '/settings/keys', name: 'Keys for programs' } as const,
        { href: '/settings/webhooks', name: 'Webhooks' } as const,
        { href: '/settings/leaving', name: 'Leaving' } as const,
      ]
    : []),
];
