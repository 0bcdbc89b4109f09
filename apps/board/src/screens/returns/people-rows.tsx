'use client';
import type { ReturnsView } from '@ullage/contracts';
import { addDays } from '../../lib/local-time.ts';
import { SlackList } from '../../pictures/slack-list.tsx';
import { WeekStrip, type StripVisit } from '../../pictures/week-strip.tsx';
import { EmptyState } from '../../ui/blank.tsx';
import type { Offer } from './offer.ts';
import type { Picture } from './picture.ts';
import { dayOnAxis, type Axis } from './rows.ts';
import { freeHours, hoursOf, hoursWords, spanOfDays, stripVisits, workingDayOf } from './week.ts';
import css from './returns.module.css';

type Person = ReturnsView['people'][number];

function offeredStop(offer: Offer | undefined, person: Person, axis: Axis): StripVisit[] {
  if (offer?.personId !== person.id || offer.day === '' || offer.time === '') return [];
  const day = dayOnAxis(offer.day, axis);
  if (day < 0 || day > 6) return [];
  const fromHour = Number(offer.time.slice(0, 2)) + Number(offer.time.slice(3)) / 60;
  const toHour = Math.min(24, fromHour + offer.minutes / 60);
  const mark = offer.refused ? 'refused' : 'offer';
  const said = offer.refused ? `${offer.time} refused` : `${offer.time} asked`;
  return [{ id: 'offer', day, fromHour, toHour, mark, text: offer.inHand === true ? '' : said }];
}

function PersonRow({ person, workingDay, ...picture }: PersonRowProps) {
  const { axis, week, now, offer } = picture;
  const working = workingDayOf(workingDay);
  const free = (fromDay: string, days: number): string =>
    hoursWords(freeHours(person, { fromDay, days }, { now, axis, working }));
  const visits = [...stripVisits(person, axis), ...offeredStop(offer, person, axis)];
  const later = [7, 14].map((ahead) => ({
    text: spanOfDays(addDays(axis.today, ahead), addDays(axis.today, ahead + 6)),
    free: free(addDays(axis.today, ahead), 7),
  }));
  const freeNow = free(axis.today, 7);
  return (
    <WeekStrip
      week={week}
      personId={person.id}
      name={person.name}
      note={person.certificates}
      freeText={`${freeNow} free`}
      freeNote="in seven days"
      hours={hoursOf(axis, working)}
      visits={visits}
      later={later}
      label={`${person.name}: ${freeNow} free in seven days, ${visits.length} ${visits.length === 1 ? 'visit' : 'visits'}.`}
    />
  );
}
interface PersonRowProps extends Picture {
  readonly person: Person;
  readonly workingDay: ReturnsView['workingDay'];
}

/** People on the circuits' own axis, so that a moment is one vertical line through both. */
export function PeopleRows({ people, workingDay, takesDrops, ...picture }: PeopleRowsProps) {
  return (
    <SlackList
      headless
      week={picture.week}
      label="Technicians and their week"
      title={
        <>
          <h2>Who can go</h2>
          <span>
            open bar: free; filled: taken
            {takesDrops && <span className={css['byMouse']}>; drag a row here to place it</span>}
          </span>
        </>
      }
    >
      {people.map((person) => (
        <PersonRow key={person.id} {...picture} person={person} workingDay={workingDay} />
      ))}
      {people.length === 0 && (
        <li className={css['none']}>
          <EmptyState title="Nobody can be sent yet.">
            <p>Invite a technician, or register somebody with a certificate, under People.</p>
          </EmptyState>
        </li>
      )}
    </SlackList>
  );
}
interface PeopleRowsProps extends Picture {
  readonly takesDrops: boolean;
  readonly people: ReturnsView['people'];
  readonly workingDay: ReturnsView['workingDay'];
}
