import { Inject, Injectable } from '@nestjs/common';
import type { Actor, Clock } from '@ullage/casework';
import { Refusal } from '@ullage/contracts';
import type { Database } from '@ullage/database';
import { keepKey, listKeys, newSecret, revokeKey } from '../../auth/api-keys.ts';
import type { ListedKey } from '../../auth/api-keys.ts';
import type { Auth } from '../../auth/create-auth.ts';
import type { KeyedActor } from '../../http/request.ts';
import { writeDown } from '../people/people.module.ts';
import type { Done } from '../people/people.module.ts';
import type { KeyList, MadeKey, MakeKey } from './shapes.ts';

export interface KeysParts {
  readonly auth: Auth;
  readonly database: Database;
  readonly clock: Clock;
}
export const KEYS_PARTS = Symbol('keys parts');
const DAY_MS = 86_400_000;

function stateOf({ revokedAt, endsAt, stands }: ListedKey, now: Date): KeyList['items'][number]['state'] {
  if (revokedAt !== null) return 'revoked';
  if (endsAt <= now) return 'ended';
  return stands ? 'in-use' : 'maker-gone';
}

/** The keys of a contractor: made, listed and revoked by whoever lets people in. */
@Injectable()
export class KeysService {
  readonly #parts: KeysParts;
  constructor(@Inject(KEYS_PARTS) parts: KeysParts) {
    this.#parts = parts;
  }

  async list({ tenantId }: Actor): Promise<KeyList> {
    const now = this.#parts.clock.date();
    const keys = await listKeys(this.#parts.auth.pool, tenantId);
    const items = keys.map((key) => ({
      id: key.id,
      name: key.name,
      role: key.role,
      ending: key.ending,
      madeBy: key.madeBy,
      madeAt: key.madeAt.toISOString(),
      endsAt: key.endsAt.toISOString(),
      usedAt: key.usedAt?.toISOString() ?? null,
      state: stateOf(key, now),
    }));
    return { items };
  }

  async make({ actor, id: key }: KeyedActor, { name, role, days }: MakeKey): Promise<MadeKey> {
    const { auth, clock } = this.#parts;
    const at = clock.date();
    const [id, secret] = [clock.newId(), newSecret()];
    const endsAt = new Date(at.getTime() + days * DAY_MS);
    await keepKey(auth.pool, { ...actor, id, name, role, secret, at, endsAt });
    await this.#writeDown(actor, { action: 'make-key', key, recordId: id, detail: { name, role } });
    return { id, secret };
  }

  async revoke({ actor, id: key }: KeyedActor, id: string): Promise<Done> {
    const { auth, clock } = this.#parts;
    const done = await revokeKey(auth.pool, { tenantId: actor.tenantId, id, at: clock.date() });
    if (!done) throw new Refusal('not-found', '');
    await this.#writeDown(actor, { action: 'revoke-key', key, recordId: id, detail: {} });
    return { done: true };
  }

  #writeDown(actor: Actor, change: Omit<Parameters<typeof writeDown>[2], 'recordKind'>): Promise<void> {
    return writeDown(this.#parts, actor, { ...change, recordKind: 'api-key' });
  }
}
