import type { AttentionView } from '@ullage/contracts';
import Link from 'next/link';
import type { ReactNode } from 'react';
import { DefinitionList } from '../../ui/definition-list.tsx';
import { State } from '../../ui/state.tsx';
import { cylinderPath, unitPath, visitPath } from '../link-to.ts';
import css from '../office.module.css';
import { momentWords } from '../when.ts';
import { closedWords, commandWords, readable } from './readable.ts';

type Item = AttentionView['items'][number];

function Subject({ item }: { item: Item }) {
  if (item.subjectId === null) return null;
  if (item.subjectKind === 'visit') return <Link href={visitPath(item.subjectId)}>Open the visit</Link>;
  if (item.subjectKind === 'unit') return <Link href={unitPath(item.subjectId)}>Open the unit</Link>;
  if (item.subjectKind === 'cylinder') return <Link href={cylinderPath(item.subjectId)}>Open the cylinder</Link>;
  if (item.subjectKind === 'instrument') return <Link href="/settings/instruments">Open the instruments</Link>;
  return null;
}

function Kept({ envelope, zone }: { envelope: NonNullable<Item['envelope']>; zone: string }) {
  const lines = readable(envelope, (instant) => momentWords(instant, zone)).map(({ term, value }) => ({
    term: term || 'Said',
    value,
  }));
  return (
    <div className={css['envelope']}>
      {lines.length > 0 && <DefinitionList items={lines} />}
      <details className={css['more']}>
        <summary>As it was sent</summary>
        <pre className={css['raw']} tabIndex={0} aria-label="The command as it was sent">
          {JSON.stringify(envelope, null, 2)}
        </pre>
      </details>
    </div>
  );
}

/** One thing that waits for a person: what it is, what it would take, the command kept whole. */
export function AttentionItem({ item, zone, children }: { item: Item; zone: string; children?: ReactNode }) {
  const closed = item.closedAt !== null;
  return (
    <li data-work={closed ? 'done' : 'waits'}>
      <h2>{item.title}</h2>
      {item.text !== '' && <p>{item.text}</p>}
      <p className="quiet">
        {closed ? <State mark="done">{closedWords(item.closedHow)}</State> : <State mark="unsure">Waits</State>}
        {' since '}
        {momentWords(item.closedAt ?? item.openedAt, zone)}
        {item.commandKind !== null && <>; command: {commandWords(item.commandKind)}</>}
      </p>
      <Subject item={item} />
      {item.envelope !== null && <Kept envelope={item.envelope} zone={zone} />}
      {children}
    </li>
  );
}
