/** One round with the office: send, read, then the photos. Run again when something changed, or the line came back. */
import type { PushAnswer } from '@ullage/contracts';
import type { Entry } from './entry.ts';
import { readMeta } from './meta.ts';
import type { Owner } from './meta.ts';
import { sendPhotos } from './photos.ts';
import type { PhotoOffice } from './photos.ts';
import type { Store } from './port.ts';
import { pullAll } from './pull.ts';
import type { PullOffice } from './pull.ts';
import { pushAll } from './push.ts';
import type { Batch } from './push.ts';

/** The office over a line that may be lost at any moment: each of these may throw, having been done or not. */
export interface Office extends PullOffice, PhotoOffice {
  push(batch: Batch): Promise<PushAnswer>;
}
/** The session has ended. Nothing is lost: it goes out after a sign-in as the same person. */
export class SignedOut extends Error {}

export interface SyncParts {
  readonly store: Store;
  readonly office: Office;
  /** By the device's clock, as ISO 8601. */
  readonly now: () => string;
  /** Runs work while no other tab of this device does. */
  readonly alone: <T>(work: () => Promise<T>) => Promise<T>;
}
export type Round =
  | { readonly is: 'done' }
  | { readonly is: 'signed-out' }
  /** Somebody else is signed in; nothing of this store was sent in their name. */
  | { readonly is: 'not-yours' }
  | { readonly is: 'broke-off'; readonly fault: unknown };

/** What is read may put commands back to be sent: after a restore, all of them. More than that is for the next round. */
const TURNS = 3;

/** @param who is signed in now */
export const sync = (parts: SyncParts, who: Owner): Promise<Round> => parts.alone(() => round(parts, who));

async function round({ store, office, now }: SyncParts, who: Owner): Promise<Round> {
  const owner = await store.read((tx) => readMeta(tx, 'owner'));
  if (owner?.userId !== who.userId || owner.tenantId !== who.tenantId) return { is: 'not-yours' };
  try {
    for (let turn = 0, waits = true; waits && turn < TURNS; turn += 1) {
      await pushAll(store, { push: (batch) => office.push(batch), now });
      await pullAll(store, office);
      waits = (await store.read((tx) => tx.list<Entry>('outbox'))).some(({ state }) => state === 'waiting');
    }
    await sendPhotos(store, office);
    return { is: 'done' };
  } catch (fault) {
    return fault instanceof SignedOut ? { is: 'signed-out' } : { is: 'broke-off', fault };
  }
}
