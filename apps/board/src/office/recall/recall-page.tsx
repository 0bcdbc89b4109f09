import type { MeView, RecallView } from '@ullage/contracts';
import { MASS_UNITS } from '@ullage/units';
import Link from 'next/link';
import { EmptyState } from '../../ui/blank.tsx';
import { State } from '../../ui/state.tsx';
import { WorkList } from '../../ui/work-list.tsx';
import { cylinderPath } from '../link-to.ts';
import { RefreshOnChange } from '../refresh-on-change.tsx';
import { Section, WhoRules } from '../section.tsx';
import { momentWords } from '../when.ts';
import css from '../office.module.css';
import { CloseRecall } from './recall-acts.tsx';
import { RecallItem } from './recall-item.tsx';
import { GROUPS, KIND_WORDS, NOTHING_WORDS } from './words.ts';

export interface RecallPageProps {
  readonly view: RecallView;
  readonly tenant: MeView['tenant'];
  readonly maySettle: boolean;
}

function Progress({ view }: { view: RecallView }) {
  const { settled, items } = view;
  const isDone = settled === items.length;
  if (isDone && view.closedAt !== null) return <State mark="done">Closed</State>;
  if (items.length === 0) return <State mark="fine">Nothing touched</State>;
  return (
    <State mark={isDone ? 'done' : 'unsure'}>
      {settled} of {items.length} settled
    </State>
  );
}

function Head({ view, tenant, maySettle }: RecallPageProps) {
  const { subject, since, until, items, settled, closedAt } = view;
  const zone = tenant.timeZone;
  const mayClose = maySettle && settled === items.length && closedAt === null;
  return (
    <header className={css['head']}>
      <div className={css['title']}>
        <h1>
          Recall of <span className="id">{subject.title}</span>
        </h1>
        <div className={css['standing']}>
          <Progress view={view} />
          {mayClose && <CloseRecall recallId={view.id} />}
        </div>
      </div>
      <ul className={css['facts']}>
        <li>
          <b>{view.why}</b>
        </li>
        <li>
          {KIND_WORDS[view.kind]}, {since === null ? 'from the beginning' : `since ${momentWords(since, zone)}`}
          {until !== null && ` until ${momentWords(until, zone)}`}
        </li>
        <li>
          opened by {view.openedBy}, {momentWords(view.openedAt, zone)}
        </li>
        <li>
          {subject.kind === 'cylinder' ? (
            <Link href={cylinderPath(subject.id)}>the cylinder</Link>
          ) : (
            <Link href="/settings/instruments">the instruments</Link>
          )}
        </li>
      </ul>
    </header>
  );
}

/** Everything that a found fault touched, group by group in the order of time, each with its one action. */
export function RecallPage(props: RecallPageProps) {
  const { view, tenant, maySettle } = props;
  const unit = MASS_UNITS.find((one) => one === tenant.massUnit) ?? 'lb';
  const groups = GROUPS.map((group) => ({ ...group, items: view.items.filter(({ kind }) => kind === group.kind) }));
  return (
    <main className={css['page']}>
      <RefreshOnChange />
      <Head {...props} />
      {view.items.length === 0 && (
        <EmptyState title="It touched nothing.">
          <p>{NOTHING_WORDS[view.kind]} What is told later appears here.</p>
        </EmptyState>
      )}
      {groups
        .filter(({ items }) => items.length > 0)
        .map(({ kind, title, items }) => (
          <Section key={kind} id={`recall-${kind}`} title={title} note={` ${items.length}`}>
            <WorkList label={title} className={css['works']}>
              {items.map((item) => (
                <RecallItem key={item.id} recall={view} item={item} unit={unit} maySettle={maySettle} />
              ))}
            </WorkList>
          </Section>
        ))}
      {view.items.some(({ kind }) => kind === 'test' || kind === 'circuit') && (
        <Section id="recall-rules" title="Who rules">
          <WhoRules />
        </Section>
      )}
    </main>
  );
}
