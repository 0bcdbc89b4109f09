import type { VisitView } from '@ullage/contracts';
import type { Route } from 'next';
import { dayWords, localTime, longMomentWords } from '../../lib/local-time.ts';
import { Landing } from '../../office/landing.tsx';
import { factAnchor } from '../../office/link-to.ts';
import { RULE_NAMES } from '../../office/rule-names.ts';
import { siteWords } from '../../office/site-words.ts';
import { EmptyState } from '../../ui/blank.tsx';
import { ButtonLink } from '../../ui/button-link.tsx';
import { DefinitionList } from '../../ui/definition-list.tsx';
import { PhotoTile } from '../../ui/photo-tile.tsx';
import { Shape, State } from '../../ui/state.tsx';
import css from './papers.module.css';

type Fact = VisitView['facts'][number];
const STATE_MARKS = {
  proposed: 'offer',
  placed: 'planned',
  'on-site': 'live',
  done: 'done',
  cancelled: 'refused',
} as const;
const STATE_WORDS = {
  proposed: 'No day yet',
  placed: 'Planned',
  'on-site': 'On site',
  done: 'Done',
  cancelled: 'Cancelled',
} as const;

function Head({ page }: { page: VisitView }) {
  const { visit, site } = page;
  const zone = visit.timeZone;
  const items = [
    { term: 'Customer', value: visit.customerName },
    { term: 'Site', value: siteWords(site) },
    ...(site.accessNotes === null ? [] : [{ term: 'Access', value: site.accessNotes }]),
    ...(site.contact === null
      ? []
      : [{ term: 'Contact', value: [site.contact.name, site.contact.phone].filter(Boolean).join(', ') }]),
    ...(visit.symptom === null ? [] : [{ term: 'What is wrong', value: visit.symptom }]),
    ...(visit.startsAt === null
      ? []
      : [{ term: 'Planned', value: `${longMomentWords(visit.startsAt, zone)}, ${visit.minutes} min` }]),
    ...(visit.startedAt === null ? [] : [{ term: 'Arrived', value: longMomentWords(visit.startedAt, zone) }]),
    ...(visit.finishedAt === null ? [] : [{ term: 'Left', value: longMomentWords(visit.finishedAt, zone) }]),
    {
      term: 'People',
      value: visit.people.map(({ name, certificates }) => `${name} (${certificates})`).join(', ') || 'nobody yet',
    },
    ...visit.overrides.map(({ rule, reason }) => ({ term: `Overridden, ${RULE_NAMES[rule]}`, value: reason })),
  ];
  return (
    <header className={css['visitHead']}>
      <h1>
        {visit.purposeText} at {visit.siteName}
      </h1>
      <p className={css['state']}>
        <State mark={STATE_MARKS[visit.state]}>{STATE_WORDS[visit.state]}</State>
        <span className="id">{visit.circuitTags.join(', ')}</span>
      </p>
      <DefinitionList items={items} />
    </header>
  );
}

function Links({ page, unitIds }: { page: VisitView; unitIds: readonly string[] }) {
  const { visit, outcome } = page;
  return (
    <div className={css['linksRow']}>
      {page.facts.length > 0 && <ButtonLink href={`/visits/${visit.id}/record` as Route}>Service record</ButtonLink>}
      {outcome && <ButtonLink href={`/sheets/${outcome.calculationId}` as Route}>Leak-rate sheet</ButtonLink>}
      {unitIds.map((id) => (
        <ButtonLink key={id} href={`/units/${id}` as Route}>
          The unit
        </ButtonLink>
      ))}
      {(visit.state === 'proposed' || visit.state === 'placed') && (
        <ButtonLink href={`/returns?visit=${visit.id}`}>On the board</ButtonLink>
      )}
    </div>
  );
}

function Photos({ fact }: { fact: Fact }) {
  if (fact.photos.length === 0) return null;
  return (
    <span className={css['photos']}>
      {fact.photos.map(({ hash, state }, index) => (
        <PhotoTile key={hash} hash={hash} state={state} alt={`Photo ${index + 1} of ${fact.title.toLowerCase()}`} />
      ))}
    </span>
  );
}

function Facts({ facts, zone }: { facts: readonly Fact[]; zone: string }) {
  if (facts.length === 0)
    return (
      <EmptyState title="Nothing was recorded at this visit yet.">
        <p>What the technician records stands here in the order it happened.</p>
      </EmptyState>
    );
  const days = new Set(facts.map((fact) => localTime(fact.happenedAt, zone).day));
  return (
    <ol className={css['facts']}>
      {facts.map((fact) => {
        const { day, time } = localTime(fact.happenedAt, zone);
        return (
          <li
            key={fact.id}
            id={factAnchor(fact.id)}
            tabIndex={-1}
            data-struck={fact.correctedById !== null || undefined}
          >
            <span className="quiet">{days.size > 1 ? `${dayWords(day)}, ${time}` : time}</span>
            <b>{fact.title}</b>
            <span>
              <span>{fact.summary}</span>
              <small>
                {fact.by}
                {fact.correctedById !== null && '; corrected later'}
                {fact.correctsId !== null && '; corrects an entry above'}
              </small>
              <Photos fact={fact} />
            </span>
          </li>
        );
      })}
    </ol>
  );
}

function Asks({ page }: { page: VisitView }) {
  if (page.asks.length === 0) return null;
  return (
    <section aria-labelledby="asks">
      <h2 id="asks">Somebody should look</h2>
      <ul className={css['asks']}>
        {page.asks.map((ask) => (
          <li key={ask.code}>
            <Shape mark="unsure" /> {ask.text}
          </li>
        ))}
      </ul>
    </section>
  );
}

/** The duties that something recorded here discharged, with what did. */
function doneHere({ duties, visit }: VisitView) {
  return duties.flatMap((duty) => {
    const facts = duty.dischargedBy.filter((fact) => fact.visitId === visit.id);
    return facts.length === 0 || !duty.state.startsWith('discharged') ? [] : [{ duty, facts }];
  });
}

function Outcome({ page }: { page: VisitView }) {
  const { outcome, explains, duties } = page;
  const open = duties.filter(({ state }) => state === 'open');
  const done = doneHere(page);
  if (!outcome && !explains && open.length + done.length === 0) return null;
  return (
    <section aria-labelledby="after">
      <h2 id="after">What follows</h2>
      {outcome && (
        <p>
          <State mark={outcome.over ? 'over' : 'under'}>{outcome.text}</State>
        </p>
      )}
      {done.map(({ duty, facts }) => (
        <p key={duty.id}>
          <State mark="done">
            {duty.title} {duty.state === 'discharged-late' ? 'done late' : 'done'}
          </State>
          {' by '}
          {facts.map((fact, i) => (
            <span key={fact.id}>
              {i > 0 && '; '}
              <a href={`#${factAnchor(fact.id)}`}>
                {fact.title.toLowerCase()}
                {fact.summary !== '' && `: ${fact.summary}`}
              </a>
            </span>
          ))}
          <span className="quiet"> {duty.clause}</span>
        </p>
      ))}
      {explains !== null && <p>{explains}</p>}
      {open.map((duty) => (
        <p key={duty.id + duty.kind}>
          {duty.title}
          {duty.dueOn !== null && <b> by {dayWords(duty.dueOn)}</b>}
          <span className="quiet">
            {' '}
            {duty.clause}; responsible: {duty.responsible.replaceAll('-', ' ')}
          </span>
        </p>
      ))}
    </section>
  );
}

/** A visit as the office reads it: facts in order, people, questions. Nothing is changed here. */
export function VisitPage({ page, unitIds }: { page: VisitView; unitIds: readonly string[] }) {
  return (
    <main className={css['visit']}>
      <Landing />
      <div>
        <Head page={page} />
        <Links page={page} unitIds={unitIds} />
      </div>
      <Asks page={page} />
      <Outcome page={page} />
      <section aria-labelledby="facts">
        <h2 id="facts">What was recorded</h2>
        <Facts facts={page.facts} zone={page.visit.timeZone} />
      </section>
    </main>
  );
}
