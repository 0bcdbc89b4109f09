import { KEY_ROLES } from '@ullage/contracts';
import type { Metadata } from 'next';
import * as z from 'zod';
import { get } from '../../../../../lib/api.ts';
import { getMe } from '../../../../../lib/session.ts';
import { Keys } from '../../../../../screens/settings/keys.tsx';

export const metadata: Metadata = { title: 'Keys for programs' };

const List = z.object({
  items: z.array(
    z.object({
      id: z.string(),
      name: z.string(),
      role: z.enum(KEY_ROLES),
      ending: z.string(),
      madeBy: z.string(),
      madeAt: z.string(),
      endsAt: z.string(),
      usedAt: z.string().nullable(),
      state: z.enum(['in-use', 'revoked', 'ended', 'maker-gone']),
    }),
  ),
});

export default async function KeysPage() {
  const [me, { items }] = await Promise.all([getMe(), get('/v1/keys', List)]);
  return <Keys items={items} manages={me.permissions.includes('people.manage')} timeZone={me.tenant.timeZone} />;
}
