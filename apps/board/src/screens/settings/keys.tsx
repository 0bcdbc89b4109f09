'use client';
import { useRouter } from 'next/navigation';
import { useState } from 'react';
import { dayWords, localTime, longMomentWords } from '../../lib/local-time.ts';
import { EmptyState } from '../../ui/blank.tsx';
import { Button } from '../../ui/button.tsx';
import { State } from '../../ui/state.tsx';
import { Table, type Column } from '../../ui/table.tsx';
import { tell } from '../../ui/toast.tsx';
import { send } from '../../lib/client.ts';
import { KeyDialog } from './key-dialog.tsx';
import { KEY_ROLE_WORDS, type KeyItem } from './key-words.ts';
import { SettingsPage } from './settings-page.tsx';
import css from './settings.module.css';

const STATES = {
  'in-use': { mark: 'fine', text: 'In use' },
  revoked: { mark: 'refused', text: 'Revoked' },
  ended: { mark: 'refused', text: 'Ended' },
  'maker-gone': { mark: 'refused', text: 'Ended: its maker no longer runs the firm' },
} as const;

function Revoke({ item }: { item: KeyItem }) {
  const [sure, setSure] = useState(false);
  const [busy, setBusy] = useState(false);
  const router = useRouter();
  async function revoke(): Promise<void> {
    setBusy(true);
    const answer = await send(`/v1/keys/${item.id}`, { method: 'DELETE' });
    setBusy(false);
    tell(answer.ok ? `${item.name} is out.` : answer.problem.title, answer.ok ? 'done' : 'refused');
    router.refresh();
  }
  if (!sure)
    return (
      <Button onClick={() => setSure(true)} aria-label={`Revoke ${item.name}`}>
        Revoke
      </Button>
    );
  return (
    <div className={css['acts']} role="group" aria-label={`Revoke ${item.name}`}>
      <Button kind="danger" autoFocus busy={busy} onClick={() => void revoke()}>
        Revoke for good
      </Button>
      <Button onClick={() => setSure(false)}>Leave it</Button>
    </div>
  );
}

export interface KeysProps {
  readonly items: readonly KeyItem[];
  readonly manages: boolean;
  readonly timeZone: string;
}

function columnsOf(timeZone: string): Column<KeyItem>[] {
  const day = (at: string): string => dayWords(localTime(at, timeZone).day);
  return [
    {
      id: 'name',
      head: 'Program',
      cell: ({ name, ending }) => (
        <>
          <b>{name}</b>
          <small>
            ends in <span className="id">{ending}</span>
          </small>
        </>
      ),
    },
    { id: 'role', head: 'May', cell: ({ role }) => KEY_ROLE_WORDS[role] },
    {
      id: 'state',
      head: 'State',
      cell: ({ state }) => <State mark={STATES[state].mark}>{STATES[state].text}</State>,
    },
    {
      id: 'used',
      head: 'Last used',
      cell: ({ usedAt }) =>
        usedAt === null ? <span className="quiet">never</span> : longMomentWords(usedAt, timeZone),
    },
    {
      id: 'made',
      head: 'Made',
      cell: ({ madeAt, madeBy, endsAt }) => (
        <>
          {day(madeAt)}, by {madeBy}
          <small>until {day(endsAt)}</small>
        </>
      ),
    },
  ];
}
const ACTS: Column<KeyItem> = {
  id: 'acts',
  head: 'Acts',
  cell: (item) => (item.state === 'in-use' || item.state === 'maker-gone') && <Revoke item={item} />,
};

/** The programs that may act for the contractor. */
export function Keys({ items, manages, timeZone }: KeysProps) {
  const [open, setOpen] = useState(false);
  const columns = columnsOf(timeZone);
  const make = manages && (
    <Button kind="main" onClick={() => setOpen(true)}>
      Make a key
    </Button>
  );
  return (
    <SettingsPage
      title="Keys for programs"
      lead="A key lets a program read or write here by the same rules as a person. Whatever it does names the key in the audit trail."
      actions={items.length > 0 && make}
    >
      <section className={css['part']}>
        <Table
          caption="Keys"
          rows={items}
          keyOf={({ id }) => id}
          columns={manages ? [...columns, ACTS] : columns}
          empty={
            <EmptyState title="No program has a key." actions={make || undefined}>
              <p>
                The interface is described at <a href="/v1/docs">/v1/docs</a>.
              </p>
            </EmptyState>
          }
        />
      </section>
      {open && <KeyDialog onClose={() => setOpen(false)} />}
    </SettingsPage>
  );
}
