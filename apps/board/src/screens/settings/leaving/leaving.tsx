'use client';
import type { LeavingView } from '@ullage/contracts';
import { useEffect } from 'react';
import { call } from '../../../lib/client.ts';
import { useLive } from '../../../lib/use-live.ts';
import { SettingsPage } from '../settings-page.tsx';
import { Exports } from './exports.tsx';
import { TakeOver } from './take-over.tsx';
import { isUnderWay } from './words.ts';

const LOOK_MS = 1_500;

async function fetchLeaving(): Promise<LeavingView> {
  const answer = await call<LeavingView>('/v1/leaving');
  if (!answer.ok) throw new Error(answer.problem.title);
  return answer.data;
}

export interface LeavingProps {
  readonly first: LeavingView;
  readonly mayLeave: boolean;
  readonly timeZone: string;
}

/** Everything out, and in again. How far it is changes nothing that others see, so that it is asked for and not told. */
export function Leaving({ first, mayLeave, timeZone }: LeavingProps) {
  const { data, refresh } = useLive(first, fetchLeaving);
  const isWorking = data.exports.some(isUnderWay) || isUnderWay(data.takeOver);
  useEffect(() => {
    if (!isWorking) return undefined;
    const timer = setInterval(refresh, LOOK_MS);
    return () => clearInterval(timer);
  });
  return (
    <SettingsPage title="Leaving" lead="What you have here is yours: take all of it along, and come back with it.">
      <Exports items={data.exports} mayLeave={mayLeave} timeZone={timeZone} onAsked={refresh} />
      <TakeOver view={data} mayLeave={mayLeave} timeZone={timeZone} onBegun={refresh} />
    </SettingsPage>
  );
}
