/** Photos and signatures: named by their hash, sent in parts, gone on with where a lost line broke off. */
import type { PhotoArrival, Problem } from '@ullage/contracts';
import type { Store, Tx } from './port.ts';

export interface Photo {
  /** SHA-256 of the bytes, in lower-case hexadecimal. */
  readonly hash: string;
  readonly bytes: Uint8Array<ArrayBuffer>;
  readonly state: 'waiting' | 'sent' | 'refused';
  readonly problem?: Problem;
}
export interface PhotoOffice {
  namePhoto(hash: string, bytes: number): Promise<PhotoArrival>;
  sendPart(hash: string, number: number, content: Uint8Array<ArrayBuffer>): Promise<PhotoArrival>;
}
/** The office has looked at it and will not have it; any other fault is the line's. */
export class NotTaken extends Error {
  readonly problem: Problem;
  constructor(problem: Problem) {
    super(problem.detail ?? problem.title);
    this.problem = problem;
  }
}

/** Keeps a photo. The same bytes are one photo, and one that has gone is not sent again. */
export const keepPhoto = (store: Store, photo: Pick<Photo, 'hash' | 'bytes'>): Promise<void> =>
  store.write(async (tx) => {
    if (await tx.get<Photo>('photo', photo.hash)) return;
    await tx.put('photo', photo.hash, { ...photo, state: 'waiting' } satisfies Photo);
  });

/** Sends what waits, one after another; one that is refused keeps its reason and stops none after it. */
export async function sendPhotos(store: Store, office: PhotoOffice): Promise<void> {
  const waiting = (await store.read((tx) => tx.list<Photo>('photo'))).filter(({ state }) => state === 'waiting');
  for (const photo of waiting) {
    const problem = await sendOne(photo, office);
    const then: Photo = problem ? { ...photo, state: 'refused', problem } : { ...photo, state: 'sent' };
    await store.write((tx) => tx.put('photo', photo.hash, then));
  }
}

async function sendOne({ hash, bytes }: Photo, office: PhotoOffice): Promise<Problem | undefined> {
  try {
    let arrival = await office.namePhoto(hash, bytes.length);
    for (const number of arrival.missing) {
      const from = number * arrival.partBytes;
      arrival = await office.sendPart(hash, number, bytes.slice(from, from + arrival.partBytes));
      if (arrival.state === 'complete') break;
    }
    return undefined;
  } catch (fault) {
    if (fault instanceof NotTaken) return fault.problem;
    throw fault;
  }
}

/** A restored office may lack any of them; it says itself which parts. */
export async function sendPhotosAgain(tx: Tx): Promise<void> {
  for (const photo of await tx.list<Photo>('photo'))
    if (photo.state === 'sent') await tx.put('photo', photo.hash, { ...photo, state: 'waiting' } satisfies Photo);
}
