'use client';
import dynamic from 'next/dynamic';
import { useState } from 'react';
import { Actions, Button } from '../../ui/button.tsx';
import { State } from '../../ui/state.tsx';
import { Part } from './settings-page.tsx';

// The dialogs draw a code for a camera; whoever has nothing to set up does not load them.
const StartDialog = dynamic(() => import('./factor-dialogs.tsx').then((part) => part.StartDialog));
const CodesDialog = dynamic(() => import('./factor-dialogs.tsx').then((part) => part.CodesDialog));
const EndDialog = dynamic(() => import('./factor-dialogs.tsx').then((part) => part.EndDialog));

/** The second factor: a code of an authenticator app beside the password. */
export function SecondFactor({ on }: { on: boolean }) {
  const [open, setOpen] = useState('');
  const onClose = (): void => setOpen('');
  return (
    <Part id="second-factor" title="Second factor">
      <p>
        {on ? (
          <State mark="done">On: a code is asked for at every sign-in.</State>
        ) : (
          'With it, a password that somebody saw or guessed opens nothing: a code from an app on your phone is asked for as well.'
        )}
      </p>
      <Actions>
        {on ? (
          <>
            <Button onClick={() => setOpen('codes')}>New recovery codes</Button>
            <Button onClick={() => setOpen('end')}>Turn it off</Button>
          </>
        ) : (
          <Button kind="main" onClick={() => setOpen('start')}>
            Turn it on
          </Button>
        )}
      </Actions>
      {open === 'start' && <StartDialog onClose={onClose} />}
      {open === 'codes' && <CodesDialog onClose={onClose} />}
      {open === 'end' && <EndDialog onClose={onClose} />}
    </Part>
  );
}
