import { WebhookList } from '@ullage/contracts';
import type { Metadata } from 'next';
import { get } from '../../../../../lib/api.ts';
import { getMe } from '../../../../../lib/session.ts';
import { Webhooks } from '../../../../../screens/settings/webhooks.tsx';

export const metadata: Metadata = { title: 'Webhooks' };

export default async function WebhooksPage() {
  const [me, { items }] = await Promise.all([getMe(), get('/v1/webhooks', WebhookList)]);
  return <Webhooks items={items} manages={me.permissions.includes('people.manage')} timeZone={me.tenant.timeZone} />;
}
