import type { NoticesView } from '@ullage/contracts';
import { dayWords } from '@ullage/units';
import { addressedTo } from '../commands/notices.ts';
import { dateToDay, toInstant } from '../pipeline/case.ts';
import type { Viewer } from './viewer.ts';
import { DUTY_WORDS, wordOf } from './words.ts';

type Item = NoticesView['items'][number];

const OPEN = ['open', 'not-yet-known'];
const SHOWN = 200;
const SHOWN_EARLIER = 50;

/** Its page is there to go to: what was taken back with an import is shown no more. */
const SHOWN_CIRCUIT = { circuit: { withdrawnAt: null } };
const INCLUDE = { duty: { include: { circuit: { include: { unit: true } } } } } as const;

/** Reminders for this person or their role: those of duties that stand, then the last of those that do not, newest first. */
export async function noticesView({ tx, tenantId, actor }: Viewer): Promise<NoticesView> {
  const mine = { tenantId, ...addressedTo(actor) };
  const include = { ...INCLUDE, noticeReads: { where: { person: { userId: actor.userId } } } };
  const orderBy = [{ at: 'desc' as const }, { id: 'desc' as const }];
  const open = await tx.notice.findMany({
    where: { ...mine, duty: { state: { in: OPEN }, ...SHOWN_CIRCUIT } },
    include,
    orderBy,
    take: SHOWN,
  });
  const earlier = await tx.notice.findMany({
    where: { ...mine, duty: { state: { notIn: OPEN }, ...SHOWN_CIRCUIT } },
    include,
    orderBy,
    take: SHOWN_EARLIER,
  });
  const said = new Set<string>();
  return {
    items: [...open, ...earlier].map((row) => {
      const isSaidLater = row.dutyId !== null && said.has(row.dutyId);
      if (row.dutyId !== null) said.add(row.dutyId);
      return {
        id: row.id,
        kind: row.kind,
        text: row.duty ? reminderText(row.duty) : '',
        at: toInstant(row.at),
        dutyId: row.dutyId,
        unitId: row.duty?.circuit.unitId ?? null,
        circuitLetter: row.duty?.circuit.letter ?? null,
        read: row.noticeReads.length > 0,
        over: OVER[row.duty?.state ?? ''] ?? (isSaidLater ? 'said-later' : null),
      };
    }),
  };
}

/** By the state of its duty, why nobody has to act on it any more. */
const OVER: Readonly<Record<string, Item['over']>> = {
  discharged: 'discharged',
  'discharged-late': 'discharged',
  withdrawn: 'withdrawn',
  suspended: 'suspended',
};

interface DutyRow {
  readonly kind: string;
  readonly dueOn: Date | null;
  readonly circuit: { readonly letter: string; readonly unit: { readonly tag: string } };
}
const reminderText = (duty: DutyRow): string =>
  `${duty.circuit.unit.tag}-${duty.circuit.letter}: ${wordOf(DUTY_WORDS, duty.kind)}, due ${duty.dueOn ? dayWords(dateToDay(duty.dueOn)) : 'soon'}.`;
