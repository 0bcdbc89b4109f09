'use client';
import type { Problem } from '@ullage/contracts';
import { useEffect, useState, useSyncExternalStore, type ReactNode } from 'react';
import { ErrorState, EmptyState } from '../ui/blank.tsx';
import { BigButton } from '../ui/phone/big-button.tsx';
import { PhoneShell } from '../ui/phone/phone-shell.tsx';
import { Skeleton } from '../ui/skeleton.tsx';
import { newKey } from '../lib/client.ts';
import { Announcements } from './announce.tsx';
import { open, type Opened } from './boot.ts';
import { FieldProvider } from './field-context.tsx';
import { go, routeOf, useAddress } from './router.ts';
import { Today } from './today.tsx';
import { Visit } from './visit.tsx';
import css from './app.module.css';

/** The technician's app. The server's HTML is the same for every path; all else happens on the phone. */
export function FieldApp() {
  const address = useAddress();
  return (
    <div className={css['app']}>
      {address === null ? <Opening /> : <Door address={address} />}
      <Announcements />
    </div>
  );
}

function Opening() {
  return (
    <PhoneShell title="Opening" sync={null}>
      <Skeleton label="Opening your day" lines={6} />
    </PhoneShell>
  );
}

function Door({ address }: { address: string }) {
  const [opened, setOpened] = useState<Opened>();
  const [problem, setProblem] = useState<Problem>();
  const [tries, setTries] = useState(0);
  useEffect(() => {
    let isGone = false;
    void open().then((answer) => {
      if (isGone) return;
      if (answer.ok) setOpened(answer.data);
      setProblem(answer.ok ? undefined : answer.problem);
    });
    return () => {
      isGone = true;
    };
  }, [tries]);
  if (opened) return <Inside opened={opened} address={address} />;
  if (problem) return <Closed problem={problem} onRetry={() => setTries(tries + 1)} />;
  return <Opening />;
}

function Closed({ problem, onRetry }: { problem: Problem; onRetry: () => void }) {
  const isOut = problem.status === 401;
  const toSignIn = (): void => location.assign(`/sign-in?next=${encodeURIComponent(location.pathname)}`);
  return (
    <PhoneShell
      title={isOut ? 'Signed out' : 'Not open yet'}
      sync={null}
      foot={<BigButton onClick={isOut ? toSignIn : onRetry}>{isOut ? 'Sign in' : 'Try again'}</BigButton>}
    >
      <ErrorState title={isOut ? 'Sign in to see your day.' : problem.title}>
        <p>
          {isOut
            ? 'What you typed on this phone is still here.'
            : (problem.detail ?? 'What you typed on this phone is still here.')}
        </p>
      </ErrorState>
    </PhoneShell>
  );
}

function Inside({ opened, address }: { opened: Opened; address: string }) {
  const { port, keep, album, me, serverNow } = opened;
  const [subscribe] = useState(() => (onChange: () => void) => port.subscribe((what) => what === 'sync' && onChange()));
  const sync = useSyncExternalStore(subscribe, port.sync, port.sync);
  useEffect(() => {
    const retry = (): void => {
      port.retry();
      album.retry();
    };
    // Photos of an earlier day may still be on this phone.
    album.retry();
    addEventListener('online', retry);
    return () => removeEventListener('online', retry);
  }, [port, album]);
  const screen = { port, keep, album, me, sync, timeZone: me.tenant.timeZone, newId: newKey, now: () => new Date() };
  return (
    <FieldProvider value={screen}>
      {me.tenant.demo && <p className={css['demo']}>Demo: invented firms, people and places.</p>}
      <Screen address={address} serverNow={serverNow} />
    </FieldProvider>
  );
}

function Screen({ address, serverNow }: { address: string; serverNow: () => Date }): ReactNode {
  const [path = '', search = ''] = address.split(/(?=\?)/);
  const route = routeOf(path, search);
  switch (route.is) {
    case 'today':
      return <Today serverNow={serverNow} />;
    case 'visit':
      return <Visit key={route.visitId} route={route} />;
    case 'nowhere':
      return (
        <PhoneShell title="Not here" sync={null} foot={<BigButton onClick={() => go('/field')}>To today</BigButton>}>
          <EmptyState title="This page does not exist.">
            <p>Your day leads to every visit that is yours.</p>
          </EmptyState>
        </PhoneShell>
      );
  }
}
