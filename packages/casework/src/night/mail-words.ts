import type { Day } from '@ullage/units';
import { dateToDay, toInstant } from '../pipeline/case.ts';
import type { Work } from '../pipeline/case.ts';
import { DUTY_WORDS, RULEBOOK_WORDS, wordOf } from '../views/words.ts';

/** What a reminder's mail is made of, as it stands when it is sent. */
export interface ReminderMail {
  readonly to: string;
  readonly unitId: string;
  readonly contractor: string;
  /** Unit and circuit: `0417-A`. */
  readonly circuit: string;
  readonly customer: string;
  readonly site: string;
  readonly address: string;
  readonly duty: string;
  readonly rulebook: string;
  readonly clause: string;
  readonly why: string;
  readonly responsible: string;
  /** The last legal day by the site's calendar. */
  readonly dueOn: Day;
  /** Whole days from the site's today to the last legal day; below zero once it is over. */
  readonly daysLeft: number;
  readonly timeZone: string;
  readonly provisional: boolean;
}

/** What of a duty's row, and of where it is, a mail says. */
export interface DutyToTell {
  readonly kind: string;
  readonly rulebook: string;
  readonly clause: string;
  readonly why: string;
  readonly responsible: string;
  readonly dueAt: Date;
  readonly dueOn: Date | null;
  readonly provisional: boolean;
  readonly circuit: {
    readonly letter: string;
    readonly unit: {
      readonly id: string;
      readonly tag: string;
      readonly site: {
        readonly name: string;
        readonly address: string;
        readonly timeZone: string;
        readonly customer: { readonly name: string };
      };
    };
  };
}

export function reminderMail(
  { recordedAt, world: { calendar } }: Work,
  duty: DutyToTell,
  person: { readonly email: string; readonly contractor: string },
): ReminderMail {
  const { letter, unit } = duty.circuit;
  const { site } = unit;
  // The edge is the first instant after the last legal day.
  const dayOfEdge = (): Day => calendar.dayOf(toInstant(new Date(duty.dueAt.getTime() - 1)), site.timeZone);
  const dueOn = duty.dueOn ? dateToDay(duty.dueOn) : dayOfEdge();
  return {
    to: person.email,
    contractor: person.contractor,
    unitId: unit.id,
    circuit: `${unit.tag}-${letter}`,
    customer: site.customer.name,
    site: site.name,
    address: site.address,
    duty: wordOf(DUTY_WORDS, duty.kind),
    rulebook: wordOf(RULEBOOK_WORDS, duty.rulebook),
    clause: duty.clause,
    why: duty.why,
    responsible: duty.responsible,
    dueOn,
    daysLeft: calendar.daysBetween(calendar.dayOf(recordedAt, site.timeZone), dueOn),
    timeZone: site.timeZone,
    provisional: duty.provisional,
  };
}
