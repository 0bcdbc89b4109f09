import { Shape } from '../state.tsx';
import css from './phone.module.css';

export type SyncState =
  | { readonly is: 'sent'; readonly at: string }
  | { readonly is: 'sending' }
  | { readonly is: 'offline'; readonly since: string }
  | { readonly is: 'refused'; readonly count: number };

function words(state: SyncState): string {
  switch (state.is) {
    case 'sent':
      return `Sent ${state.at}`;
    case 'sending':
      return 'Sending';
    case 'offline':
      return `No signal since ${state.since}`;
    case 'refused':
      return state.count === 1 ? 'One note needs you' : `${state.count} notes need you`;
  }
}
const MARK = { sent: 'done', sending: 'sending', offline: 'offline', refused: 'refused' } as const;

const counted = (count: number, word: string): readonly string[] =>
  count === 0 ? [] : [`${count} ${word}${count === 1 ? '' : 's'}`];

/** Where a technician's notes are: a shape, words, a count; under the title of every screen, never a bare icon. */
export function SyncLine({ state, waiting, photos = 0 }: { state: SyncState; waiting: number; photos?: number }) {
  const here = [...counted(waiting, 'note'), ...counted(photos, 'photo')];
  const kept = here.length === 0 ? 'nothing left on this phone' : `${here.join(', ')} safe on this phone`;
  return (
    <p className={css['sync']} role="status">
      <span>
        <Shape mark={MARK[state.is]} size={13} />
        {words(state)}
      </span>
      <span>{kept}</span>
    </p>
  );
}
