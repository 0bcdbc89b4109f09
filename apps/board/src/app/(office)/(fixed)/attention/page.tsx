import { AttentionView, isRecallReason, RecallListView } from '@ullage/contracts';
import type { Metadata } from 'next';
import { get } from '../../../../lib/api.ts';
import { getMe } from '../../../../lib/session.ts';
import { AttentionItem } from '../../../../office/attention/attention-item.tsx';
import { Settle } from '../../../../office/attention/settle.tsx';
import { countOf } from '../../../../office/count-words.ts';
import css from '../../../../office/office.module.css';
import { RecallLinks } from '../../../../office/recall/recall-links.tsx';
import { RefreshOnChange } from '../../../../office/refresh-on-change.tsx';
import { EmptyState } from '../../../../ui/blank.tsx';
import { WorkList } from '../../../../ui/work-list.tsx';

export const metadata: Metadata = { title: 'Attention' };

export default async function AttentionPage() {
  const [me, { items }, recalls] = await Promise.all([
    getMe(),
    get('/v1/attention', AttentionView),
    get('/v1/recalls', RecallListView),
  ]);
  const zone = me.tenant.timeZone;
  const maySettle = me.permissions.includes('attention.settle');
  const [open, closed] = [
    items.filter((item) => item.closedAt === null),
    items.filter((item) => item.closedAt !== null),
  ];
  return (
    <main className={css['page']}>
      <RefreshOnChange />
      <header className={css['head']}>
        <h1>Attention</h1>
        <p className={css['lead']}>
          What could not be applied as it stands, and what was booked and should be looked at. Nothing is lost: each
          command is kept whole.
        </p>
      </header>
      {open.length === 0 && (
        <EmptyState title="Nothing waits for a person.">
          <p>A command that cannot be applied, or a job that keeps failing, appears here.</p>
        </EmptyState>
      )}
      <WorkList label="What waits" className={css['items']}>
        {open.map((item) => (
          <AttentionItem key={item.id} item={item} zone={zone}>
            {maySettle && (
              <Settle
                attentionId={item.id}
                title={item.title}
                about={item.text}
                kind={item.kind}
                recallFrom={isRecallReason(item.reason) ? item.commandId : null}
              />
            )}
          </AttentionItem>
        ))}
      </WorkList>
      <RecallLinks recalls={recalls.items} zone={zone} />
      {closed.length > 0 && (
        <details className={css['folded']}>
          <summary>Closed: {countOf(closed.length, 'item')}</summary>
          <ul className={css['items']}>
            {closed.map((item) => (
              <AttentionItem key={item.id} item={item} zone={zone} />
            ))}
          </ul>
        </details>
      )}
    </main>
  );
}
