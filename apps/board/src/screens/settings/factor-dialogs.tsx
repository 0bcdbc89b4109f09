'use client';
import { useRouter } from 'next/navigation';
import { useState, type ReactNode } from 'react';
import { confirmFactor, endFactor, newCodes, startFactor, type NewFactor } from '../../lib/auth.ts';
import type { Answer } from '../../lib/client.ts';
import { errorsByField } from '../../lib/problem.ts';
import { useWork } from '../../lib/use-act.ts';
import { Button } from '../../ui/button.tsx';
import { Dialog } from '../../ui/dialog.tsx';
import { FormDialog } from '../../ui/form-dialog.tsx';
import { TextField } from '../../ui/text-field.tsx';
import { tell } from '../../ui/toast.tsx';
import { accountField } from './account-fields.ts';
import { QrCode } from '../../ui/qr-code.tsx';
import css from './settings.module.css';

interface Closing {
  readonly onClose: () => void;
}

interface StepProps<T> extends Closing {
  readonly title: string;
  readonly send: string;
  readonly field: 'password' | 'code';
  readonly children: ReactNode;
  readonly work: (text: string) => Promise<Answer<T>>;
  readonly onDone: (data: T) => void;
}
const FIELDS = {
  password: { label: 'Password', type: 'password', autoComplete: 'current-password' },
  code: { label: 'Code', type: 'text', autoComplete: 'one-time-code', inputMode: 'numeric' },
} as const;

/** One field and one act: the password before, or a code after. */
function Step<T>({ title, send, field, children, work, onDone, onClose }: StepProps<T>) {
  const [text, setText] = useState('');
  const { busy, problem, run } = useWork();
  async function go(): Promise<void> {
    const data = await run(() => work(text));
    if (data !== undefined) onDone(data);
  }
  return (
    <FormDialog act={send} fieldOf={accountField} onSubmit={() => void go()} {...{ title, busy, problem, onClose }}>
      {children}
      <TextField
        id={`account-${field}`}
        {...FIELDS[field]}
        autoFocus
        value={text}
        error={errorsByField(problem)[field]}
        onChange={({ target }) => setText(target.value)}
      />
    </FormDialog>
  );
}

/** Shown this once. */
function Codes({ codes, onClose }: Closing & { codes: readonly string[] }) {
  async function copy(): Promise<void> {
    try {
      await navigator.clipboard.writeText(codes.join('\n'));
      tell('The codes are copied.');
    } catch {
      tell('They could not be copied: write them down.', 'refused');
    }
  }
  return (
    <Dialog
      open
      title="Recovery codes"
      onClose={onClose}
      actions={
        <>
          <Button kind="main" onClick={() => void copy()}>
            Copy
          </Button>
          <Button onClick={onClose}>I have kept them</Button>
        </>
      }
    >
      <div className={css['once']}>
        <p>
          Each opens your account once, should the phone be lost. They are shown this once: keep them off the phone.
        </p>
        <ul className={css['codes']}>
          {codes.map((code) => (
            <li key={code}>{code}</li>
          ))}
        </ul>
      </div>
    </Dialog>
  );
}

export function StartDialog({ onClose }: Closing) {
  const [made, setMade] = useState<NewFactor>();
  const [on, setOn] = useState(false);
  const router = useRouter();
  const close = (): void => {
    onClose();
    router.refresh();
  };
  if (made === undefined)
    return (
      <Step
        key="password"
        title="Turn the second factor on"
        send="Go on"
        field="password"
        work={startFactor}
        onDone={setMade}
        onClose={onClose}
      >
        <p>You need an authenticator app on your phone; any that knows time-based codes will do.</p>
      </Step>
    );
  if (on) return <Codes codes={made.backupCodes} onClose={close} />;
  const secret = new URL(made.totpURI).searchParams.get('secret') ?? '';
  return (
    <Step
      key="code"
      title="Scan, then type the code"
      send="Turn it on"
      field="code"
      work={confirmFactor}
      onDone={() => setOn(true)}
      onClose={onClose}
    >
      <QrCode text={made.totpURI} label="The secret, for the camera of an authenticator app" />
      <p>
        Or <a href={made.totpURI}>open it in an app on this device</a>, or type this key into one:
      </p>
      <output aria-label="The key">{secret.replaceAll(/(.{4})(?=.)/g, '$1 ')}</output>
    </Step>
  );
}

export function CodesDialog({ onClose }: Closing) {
  const [codes, setCodes] = useState<readonly string[]>();
  if (codes) return <Codes codes={codes} onClose={onClose} />;
  return (
    <Step
      title="New recovery codes"
      send="Make new ones"
      field="password"
      work={newCodes}
      onDone={({ backupCodes }) => setCodes(backupCodes)}
      onClose={onClose}
    >
      <p>The codes you have now stop working.</p>
    </Step>
  );
}

export function EndDialog({ onClose }: Closing) {
  const router = useRouter();
  return (
    <Step
      title="Turn the second factor off"
      send="Turn it off"
      field="password"
      work={endFactor}
      onDone={() => {
        tell('The second factor is off.');
        onClose();
        router.refresh();
      }}
      onClose={onClose}
    >
      <p>From then on the password alone opens your account.</p>
    </Step>
  );
}
