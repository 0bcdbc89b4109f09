'use client';
import type { MadeWebhook, WebhookList } from '@ullage/contracts';
import { useRouter } from 'next/navigation';
import { useState } from 'react';
import type { Call } from '../../lib/client.ts';
import { momentWords } from '../../lib/local-time.ts';
import { errorsByField } from '../../lib/problem.ts';
import { RefreshOnChange } from '../../office/refresh-on-change.tsx';
import { EmptyState } from '../../ui/blank.tsx';
import { Button } from '../../ui/button.tsx';
import { FormDialog } from '../../ui/form-dialog.tsx';
import { State } from '../../ui/state.tsx';
import { Table, type Column } from '../../ui/table.tsx';
import { TextField } from '../../ui/text-field.tsx';
import { tell } from '../../ui/toast.tsx';
import { useAct } from '../../lib/use-act.ts';
import { Secret } from './secret-dialog.tsx';
import { Part, SettingsPage } from './settings-page.tsx';
import css from './settings.module.css';

type Item = WebhookList['items'][number];
type Message = Item['messages'][number];

const STATES = {
  on: { mark: 'fine', text: 'On' },
  'by-hand': { mark: 'hold', text: 'Stopped' },
  failing: { mark: 'late', text: 'Stopped: it took no message' },
} as const;
const OUTCOMES = {
  waits: { mark: 'planned', text: 'Waits' },
  delivered: { mark: 'done', text: 'Delivered' },
  'given-up': { mark: 'refused', text: 'Given up' },
} as const;

const messageColumns = (timeZone: string): Column<Message>[] => [
  { id: 'at', head: 'Made', cell: ({ madeAt }) => momentWords(madeAt, timeZone) },
  { id: 'kind', head: 'Message', cell: ({ kind }) => (kind === 'test' ? 'Test' : 'Something changed') },
  {
    id: 'state',
    head: 'State',
    cell: ({ state, nextAt, tries }) => (
      <State mark={OUTCOMES[state].mark}>
        {OUTCOMES[state].text}
        {nextAt !== null && tries > 0 && `, again ${momentWords(nextAt, timeZone)}`}
      </State>
    ),
  },
  { id: 'tries', head: 'Tries', right: true, cell: ({ tries }) => tries },
  { id: 'answer', head: 'Last answer', cell: ({ answer }) => answer ?? <span className="quiet">none yet</span> },
];

interface ActsProps {
  readonly item: Item;
}
function Acts({ item: { id, state } }: ActsProps) {
  const { busy, act } = useAct();
  const [sure, setSure] = useState(false);
  const router = useRouter();
  async function run(path: string, options: Call, said: string): Promise<void> {
    const done = await act(`/v1/webhooks/${id}${path}`, options);
    tell(done === undefined ? 'That did not work. Try again.' : said, done === undefined ? 'refused' : 'done');
    router.refresh();
  }
  if (sure)
    return (
      <div className={css['acts']} role="group" aria-label="Remove the webhook">
        <Button
          kind="danger"
          autoFocus
          busy={busy}
          onClick={() => void run('', { method: 'DELETE' }, 'The webhook is removed.')}
        >
          Remove for good
        </Button>
        <Button onClick={() => setSure(false)}>Leave it</Button>
      </div>
    );
  const isOn = state === 'on';
  return (
    <div className={css['acts']}>
      {isOn && (
        <Button busy={busy} onClick={() => void run('/test', { method: 'POST' }, 'A test message is on its way.')}>
          Send a test
        </Button>
      )}
      <Button
        busy={busy}
        onClick={() => void run('/state', { body: { on: !isOn } }, isOn ? 'It is stopped.' : 'It is started again.')}
      >
        {isOn ? 'Stop' : 'Start again'}
      </Button>
      <Button onClick={() => setSure(true)}>Remove</Button>
    </div>
  );
}

function AddDialog({ onClose }: { onClose: () => void }) {
  const [url, setUrl] = useState('');
  const [secret, setSecret] = useState<string>();
  const { busy, problem, act } = useAct();
  const router = useRouter();
  async function add(): Promise<void> {
    const made = await act<MadeWebhook>('/v1/webhooks', { body: { url: url.trim() } });
    if (!made) return;
    setSecret(made.secret);
    router.refresh();
  }
  if (secret !== undefined)
    return (
      <Secret title="The signing secret" secret={secret} onClose={onClose}>
        It is shown this once. With it the program checks that a message is ours, by Standard Webhooks.
      </Secret>
    );
  return (
    <FormDialog
      title="Add a webhook"
      act="Add it"
      fieldOf={() => ({ id: 'webhook-url', label: 'Address' })}
      onSubmit={() => void add()}
      {...{ busy, problem, onClose }}
    >
      <TextField
        id="webhook-url"
        label="Address"
        type="url"
        hint="It begins with https:// and can be reached from the internet."
        autoFocus
        autoComplete="off"
        value={url}
        error={errorsByField(problem)['url']}
        onChange={({ target }) => setUrl(target.value)}
      />
    </FormDialog>
  );
}

export interface WebhooksProps {
  readonly items: readonly Item[];
  readonly manages: boolean;
  readonly timeZone: string;
}

/** The programs that are told when something changed. */
export function Webhooks({ items, manages, timeZone }: WebhooksProps) {
  const [open, setOpen] = useState(false);
  const add = manages && (
    <Button kind="main" onClick={() => setOpen(true)}>
      Add a webhook
    </Button>
  );
  return (
    <SettingsPage
      title="Webhooks"
      lead="A program is told that something changed, and up to which change; what changed it asks for by its key."
      actions={items.length > 0 && add}
    >
      <RefreshOnChange />
      {items.length === 0 && (
        <section className={css['part']}>
          <EmptyState title="No program is told of changes." actions={add || undefined} />
        </section>
      )}
      {items.map((item) => (
        <Part key={item.id} id={`webhook-${item.id}`} title={item.url}>
          <State mark={STATES[item.state].mark}>{STATES[item.state].text}</State>
          {manages && <Acts item={item} />}
          <Table
            caption={`Messages to ${item.url}`}
            rows={item.messages}
            keyOf={({ id }) => id}
            columns={messageColumns(timeZone)}
            empty={<p className="quiet">Nothing was sent yet.</p>}
          />
        </Part>
      ))}
      {open && <AddDialog onClose={() => setOpen(false)} />}
    </SettingsPage>
  );
}
