/** Whose store this is, and what leaving it would leave behind. */
import { isUnsent } from './entry.ts';
import type { Entry } from './entry.ts';
import { readMeta, writeMeta } from './meta.ts';
import type { Owner } from './meta.ts';
import type { Photo } from './photos.ts';
import type { Store } from './port.ts';
import { TABLES } from './port.ts';

/** Opens the store for a person: made theirs when it is new. False when it is somebody else's; nothing is then sent. */
export const claim = (store: Store, who: Owner, newDevice: () => string): Promise<boolean> =>
  store.write(async (tx) => {
    const owner = await readMeta(tx, 'owner');
    if (owner) return owner.tenantId === who.tenantId && owner.userId === who.userId;
    await writeMeta(tx, 'owner', who);
    await writeMeta(tx, 'device', newDevice());
    return true;
  });

export interface Unsent {
  readonly commands: readonly Entry[];
  readonly photos: number;
}
/** What is nowhere but here, or waits for a word of this person. */
export const unsent = (store: Store): Promise<Unsent> =>
  store.read(async (tx) => ({
    commands: (await tx.list<Entry>('outbox')).filter(isUnsent),
    photos: (await tx.list<Photo>('photo')).filter(({ state }) => state === 'waiting').length,
  }));

/** Empties the store. While work is unsent it does not, unless the person has seen it and says so. */
export const signOut = async (store: Store, seen: { readonly leaveUnsent: boolean }): Promise<'out' | Unsent> => {
  const left = await unsent(store);
  if (!seen.leaveUnsent && (left.commands.length > 0 || left.photos > 0)) return left;
  await store.write(async (tx) => {
    for (const table of TABLES) await tx.clear(table);
  });
  return 'out';
};
