'use client';
import { useRouter } from 'next/navigation';
import { useState } from 'react';
import { call } from '../../lib/client.ts';
import { longMomentWords } from '../../lib/local-time.ts';
import { Actions, Button } from '../../ui/button.tsx';
import { Table } from '../../ui/table.tsx';
import { tell } from '../../ui/toast.tsx';
import { deviceWords } from './device-words.ts';
import { Part } from './settings-page.tsx';

export interface Session {
  readonly id: string;
  readonly current: boolean;
  readonly userAgent: string | null;
  readonly startedAt: string;
  readonly usedAt: string;
}

/** Where somebody is signed in. Each can be ended; the one that is used just now is ended by signing out. */
export function Sessions({ sessions, timeZone }: { sessions: readonly Session[]; timeZone: string }) {
  const [busy, setBusy] = useState('');
  const router = useRouter();
  async function end(path: `/v1/${string}`, said: string): Promise<void> {
    setBusy(path);
    const answer = await call(path, { method: 'DELETE' });
    setBusy('');
    tell(answer.ok ? said : answer.problem.detail || answer.problem.title, answer.ok ? 'done' : 'refused');
    router.refresh();
  }
  return (
    <Part id="sessions" title="Where you are signed in">
      <Table
        caption="Where you are signed in"
        rows={sessions}
        keyOf={({ id }) => id}
        empty={null}
        columns={[
          { id: 'device', head: 'Device', cell: ({ userAgent }) => <b>{deviceWords(userAgent)}</b> },
          { id: 'used', head: 'Last used', cell: ({ usedAt }) => longMomentWords(usedAt, timeZone) },
          { id: 'since', head: 'Signed in', cell: ({ startedAt }) => longMomentWords(startedAt, timeZone) },
          {
            id: 'act',
            head: 'Acts',
            cell: ({ id, current, userAgent }) =>
              current ? (
                <span className="quiet">this device</span>
              ) : (
                <Button
                  busy={busy === `/v1/account/sessions/${id}`}
                  aria-label={`End ${deviceWords(userAgent)}`}
                  onClick={() => void end(`/v1/account/sessions/${id}`, 'That device is signed out.')}
                >
                  End
                </Button>
              ),
          },
        ]}
      />
      {sessions.length > 1 && (
        <Actions>
          <Button
            busy={busy === '/v1/account/sessions'}
            onClick={() => void end('/v1/account/sessions', 'All other devices are signed out.')}
          >
            End all others
          </Button>
        </Actions>
      )}
    </Part>
  );
}
