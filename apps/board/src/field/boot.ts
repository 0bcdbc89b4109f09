/** Opens the app for whoever is signed in: their notes, their device number, the way to the API. */
import type { MeView } from '@ullage/contracts';
import { newKey } from '../lib/client.ts';
import { liveHub } from '../lib/live-hub.ts';
import { isPassing, makeApiPort, readMe } from './api-port.ts';
import { type Keep, makeKeep } from './keep.ts';
import { Outbox } from './outbox.ts';
import { type Album, makeAlbum } from './photos/album.ts';
import type { FieldPort, Read } from './port.ts';

export interface Opened {
  readonly me: MeView;
  readonly port: FieldPort;
  readonly keep: Keep;
  readonly album: Album;
  /** Now by the server's clock; what happened is told by the phone's own. */
  readonly serverNow: () => Date;
}

/** Runs `work` with no other tab of this app in it; where the browser knows no locks, at once. */
async function alone<T>(name: string, work: () => T | Promise<T>): Promise<T> {
  if (!('locks' in navigator)) return work();
  return navigator.locks.request(name, async () => work());
}

const WHO = 'who';
/** Who is signed in; while the server cannot be reached, who it was last: the notes on this phone are theirs. */
async function whoIsHere(keep: Keep): Promise<Read<{ readonly me: MeView; readonly skewMs: number }>> {
  const answer = await readMe();
  if (answer.ok) {
    keep.write(WHO, answer.data);
    return { ok: true, data: { me: answer.data, skewMs: Date.parse(answer.data.now) - Date.now() } };
  }
  const last = isPassing(answer.problem.status) ? (keep.read(WHO) as MeView | undefined) : undefined;
  return last ? { ok: true, data: { me: last, skewMs: 0 } } : answer;
}

export async function open(): Promise<Read<Opened>> {
  const who = await whoIsHere(makeKeep(localStorage, 'ullage|1|'));
  if (!who.ok) return who;
  const { me, skewMs } = who.data;
  // Another person on the same phone has notes and a device number of their own.
  const owner = `${me.tenant.id}|${me.person.id}`;
  const keep = makeKeep(localStorage, `ullage|1|${owner}|`);
  const outbox = new Outbox({ keep, newId: newKey, exclusive: (work) => alone('ullage-field-number', work) });
  const port = makeApiPort({
    outbox,
    now: () => new Date(),
    alone: (work) => alone('ullage-field-send', work),
    watch: (onChange) =>
      liveHub.join((signal) => {
        if (signal !== 'lost') onChange();
      }),
  });
  const album = makeAlbum(async () => (await import('./photos/open-album.ts')).openAlbum(owner));
  return { ok: true, data: { me, port, keep, album, serverNow: () => new Date(Date.now() + skewMs) } };
}
