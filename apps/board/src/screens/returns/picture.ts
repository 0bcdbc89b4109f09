import type { SlackWeek } from '../../pictures/slack-list.tsx';
import type { Offer } from './offer.ts';
import type { Axis } from './rows.ts';

/** What the rows of circuits, calls and people share. */
export interface Picture {
  readonly week: SlackWeek;
  readonly axis: Axis;
  readonly now: string;
  readonly selected: string;
  readonly offer: Offer | undefined;
  readonly select: (visitId: string) => void;
}
