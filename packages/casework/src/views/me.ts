import { MAY, mayByKey, Refusal } from '@ullage/contracts';
import type { MeView } from '@ullage/contracts';
import type { Actor, World } from '../office.ts';
import { notFound } from '../pipeline/case.ts';
import { ME } from './me.sql.ts';
import { CERTIFICATE_WORDS, wordOf } from './words.ts';

/** Who asks, what they may do, and how their contractor wants figures shown. @throws Refusal */
export async function meView(world: World, { tenantId, userId, role, key }: Actor): Promise<MeView> {
  const [row] = await world.database.tenantQuery(tenantId, ME, [tenantId, userId]);
  if (!row) throw new Refusal('not-allowed', 'You do not belong to this contractor any more.');
  const { personId, person, email, certificates, ...tenant } = row;
  if (personId === null || person === null) throw notFound();
  return {
    user: { id: userId, name: person, email: email ?? '' },
    role,
    permissions: MAY[role].filter((permission) => key === undefined || mayByKey(role, permission)),
    person: {
      id: personId,
      name: person,
      certificates: certificates.map((certificate) => ({
        ...certificate,
        text: wordOf(CERTIFICATE_WORDS, certificate.type),
      })),
    },
    tenant,
    now: world.now(),
  };
}
