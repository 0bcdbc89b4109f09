import type { ReactNode } from 'react';

const DROP = 'M6 .9C8.4 4 9.8 5.8 9.8 7.5A3.8 3.8 0 0 1 2.2 7.5C2.2 5.8 3.6 4 6 .9Z';
const ink = { fill: 'none', stroke: 'currentColor' } as const;
const ring = <circle cx="6" cy="6" r="4.4" {...ink} strokeWidth="1.4" />;
const pause = (
  <>
    <rect x="1.2" y="1.2" width="9.6" height="9.6" fill="var(--hold)" />
    <path d="M4.5 3.6v4.8M7.5 3.6v4.8" />
  </>
);

/**
 * Every state has a shape of its own, so that nothing is told by colour alone. A mark is drawn in a 12 by 12 box and
 * always stands beside its word.
 */
export const MARKS = {
  late: <path d="M6 1 11.2 10.5H.8Z" fill="var(--late)" />,
  soon: <path d="M6 .7 11.3 6 6 11.3.7 6Z" fill="var(--soon)" />,
  fine: <circle cx="6" cy="6" r="4.7" fill="var(--fine)" />,
  hold: pause,
  planned: <rect x="1.4" y="1.4" width="9.2" height="9.2" fill="var(--plan)" />,
  live: <path d="M2 .9 11 6 2 11.1Z" fill="var(--live)" />,
  done: (
    <>
      <circle cx="6" cy="6" r="4.9" {...ink} />
      <path d="m3.6 6.2 1.7 1.7 3.2-3.7" {...ink} strokeWidth="1.5" />
    </>
  ),
  refused: (
    <>
      <circle cx="6" cy="6" r="4.9" {...ink} />
      <path d="M3.8 3.8l4.4 4.4M8.2 3.8 3.8 8.2" stroke="currentColor" strokeWidth="1.5" />
    </>
  ),
  offer: <rect x="1.4" y="1.4" width="9.2" height="9.2" {...ink} strokeWidth="1.3" strokeDasharray="2.2 1.6" />,
  clear: ring,
  hit: (
    <>
      {ring}
      <path d="M6 1.6a4.4 4.4 0 0 0 0 8.8Z" fill="currentColor" stroke="none" />
    </>
  ),
  found: <circle cx="6" cy="6" r="4.9" fill="currentColor" stroke="none" />,
  unreached: <circle cx="6" cy="6" r="4.4" {...ink} strokeWidth="1.4" strokeDasharray="2.3 2.3" />,
  doubt: (
    <>
      {ring}
      <path d="M1.5 10.5 10.5 1.5" stroke="currentColor" strokeWidth="1.4" />
    </>
  ),
  unsure: (
    <>
      <path d="M1.3 1.3h9.4v9.4H1.3Z" {...ink} strokeWidth="1.2" />
      <path d="M1.3 10.7 10.7 1.3V10.7Z" fill="currentColor" stroke="none" />
    </>
  ),
  open: <path d={DROP} fill="var(--late)" />,
  repaired: (
    <>
      <path d={DROP} fill="var(--soon)" />
      <path d="M2.4 7.5h7.2" />
    </>
  ),
  verified: (
    <>
      <circle cx="6" cy="6" r="4.7" fill="var(--fine)" />
      <path d="m3.7 6.2 1.7 1.7 3-3.6" fill="none" strokeWidth="1.4" />
    </>
  ),
  deferred: pause,
  declined: (
    <>
      <rect x="1.3" y="1.3" width="9.4" height="9.4" {...ink} strokeWidth="1.2" />
      <path d="M3 9 9 3" stroke="currentColor" strokeWidth="1.2" />
    </>
  ),
  warn: (
    <>
      <path d="M6 1 11.4 10.7H.6Z" fill="var(--note)" />
      <path d="M6 4.3v3M6 8.6v.6" stroke="#132023" strokeWidth="1.3" />
    </>
  ),
  over: (
    <>
      <rect x=".7" y="3.3" width="10.6" height="5.4" fill="var(--late)" />
      <path d="M7 .6v10.8" stroke="currentColor" strokeWidth="1.7" />
    </>
  ),
  under: (
    <>
      <rect x=".7" y="3.3" width="5" height="5.4" fill="var(--fine)" />
      <path d="M8.5 .6v10.8" stroke="currentColor" strokeWidth="1.7" />
    </>
  ),
  half: (
    <>
      <circle cx="6" cy="6" r="4.7" {...ink} strokeWidth="1.2" />
      <path d="M6 1.3a4.7 4.7 0 0 1 0 9.4Z" fill="var(--fine)" />
    </>
  ),
  offline: (
    <>
      <path d="M1.5 9.5c3-7 6-7 9 0" {...ink} strokeWidth="1.3" />
      <path d="M2 2l8 8" stroke="currentColor" strokeWidth="1.3" />
    </>
  ),
  sending: <path d="M6 10.5V2M2.8 5 6 1.8 9.2 5" {...ink} strokeWidth="1.4" />,
} as const satisfies Record<string, ReactNode>;

export type Mark = keyof typeof MARKS;

/** The word that stands beside a mark unless the screen has a better one. */
export const MARK_WORDS: Readonly<Record<Mark, string>> = {
  late: 'Overdue',
  soon: 'Due soon',
  fine: 'In time',
  hold: 'On hold',
  planned: 'Planned',
  live: 'On site',
  done: 'Done',
  refused: 'No',
  offer: 'Offered',
  clear: 'Clear',
  hit: 'Hit, not yet confirmed',
  found: 'Found',
  unreached: 'Not reached',
  doubt: 'In doubt',
  unsure: 'Not settled',
  open: 'Open',
  repaired: 'Repaired',
  verified: 'Verified',
  deferred: 'Deferred',
  declined: 'Declined',
  warn: 'Caution',
  over: 'Over the limit',
  under: 'Under the limit',
  half: 'With a limit',
  offline: 'No signal',
  sending: 'Sending',
};
