import type { Metadata } from 'next';
import * as z from 'zod';
import { get } from '../../../../../lib/api.ts';
import { getMe } from '../../../../../lib/session.ts';
import { PasswordForm } from '../../../../../screens/settings/password-form.tsx';
import { SecondFactor } from '../../../../../screens/settings/second-factor.tsx';
import { Sessions } from '../../../../../screens/settings/sessions.tsx';
import { SettingsPage } from '../../../../../screens/settings/settings-page.tsx';

export const metadata: Metadata = { title: 'Your sign-in' };

const Account = z.object({
  secondFactor: z.boolean(),
  sessions: z.array(
    z.object({
      id: z.string(),
      current: z.boolean(),
      userAgent: z.string().nullable(),
      startedAt: z.string(),
      usedAt: z.string(),
    }),
  ),
});

export default async function SignInSettings() {
  const [me, account] = await Promise.all([getMe(), get('/v1/account', Account)]);
  return (
    <SettingsPage title="Your sign-in" lead={`${me.user.name}, ${me.user.email}`}>
      <Sessions sessions={account.sessions} timeZone={me.tenant.timeZone} />
      <SecondFactor on={account.secondFactor} />
      <PasswordForm email={me.user.email} />
    </SettingsPage>
  );
}
