'use client';
import { Shape } from '../../ui/state.tsx';
import { SyncLine, type SyncState as Shown } from '../../ui/phone/sync-line.tsx';
import type { Sync } from '../port.ts';
import { useField } from '../field-context.tsx';
import { usePhotos } from '../photos/use-photos.ts';
import { clock } from '../words.ts';
import css from './step.module.css';

function shownOf({ line, queued }: Sync, timeZone: string): Shown | 'signed-out' {
  const refused = queued.filter((one) => one.state === 'refused').length;
  if (line.is === 'signed-out') return 'signed-out';
  if (line.is === 'offline') return { is: 'offline', since: clock(line.since, timeZone) };
  if (refused > 0) return { is: 'refused', count: refused };
  if (line.is === 'sending') return { is: 'sending' };
  return { is: 'sent', at: line.at === null ? '' : clock(line.at, timeZone) };
}

/** Where the notes of this phone are: under the title of every screen. */
export function SyncState() {
  const { sync, timeZone } = useField();
  const photos = usePhotos().size;
  const shown = shownOf(sync, timeZone);
  const waiting = sync.queued.length;
  if (shown === 'signed-out')
    return (
      <p className={css['out']} role="status">
        <Shape mark="refused" size={13} />
        <b>Signed out</b>
        <a href={`/sign-in?next=${encodeURIComponent('/field')}`}>
          Sign in to send {waiting === 1 ? 'one note' : `${waiting} notes`}
        </a>
      </p>
    );
  return <SyncLine state={shown} waiting={waiting} photos={photos} />;
}
