import type { ReturnItem } from '@ullage/contracts';
import { edgeWords, minutesBetween, minutesWords, momentWords } from '../../lib/local-time.ts';
import { slackWords } from './rows.ts';
import css from './returns.module.css';

/** From the legal edge back to the slack, line by line, as a person would reckon it. */
export function Reasons({ item, now }: { item: ReturnItem; now: string }) {
  const zone = item.visit.timeZone;
  const left = minutesBetween(now, item.dueAt);
  const over = left < 0;
  const lines = [
    ['Window opened', momentWords(item.opensAt, zone)],
    [item.provisional ? 'Legal edge, provisional' : 'Legal edge', edgeWords(item.dueAt, zone)],
    [over ? 'From the edge to now' : 'From now to the edge', minutesWords(left)],
    ...(over
      ? []
      : [
          ['less drive, work', `${minutesWords(item.driveMinutes)} + ${minutesWords(item.workMinutes)}`],
          ['less our own reserve', minutesWords(item.reserveMinutes)],
        ]),
  ];
  return (
    <table className={css['reasons']}>
      <caption className="spoken">How the slack is reckoned</caption>
      <tbody>
        {lines.map(([term, value]) => (
          <tr key={term}>
            <th scope="row">{term}</th>
            <td>{value}</td>
          </tr>
        ))}
        <tr>
          <th scope="row">{over ? 'Overdue' : 'Slack'}</th>
          <td>{slackWords(item, now)}</td>
        </tr>
      </tbody>
    </table>
  );
}
