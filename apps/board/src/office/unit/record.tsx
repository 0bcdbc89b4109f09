import type { CircuitView, FactView, LookView, UnitView } from '@ullage/contracts';
import type { Route } from 'next';
import Link from 'next/link';
import type { ReactNode } from 'react';
import { State } from '../../ui/state.tsx';
import type { Mark } from '../../ui/marks.tsx';
import { Table } from '../../ui/table.tsx';
import { factAnchor, visitPath } from '../link-to.ts';
import { massWords, gramsWords } from '../masses.ts';
import { Section } from '../section.tsx';
import { dayWords, momentWords } from '../when.ts';
import { lookMark, type SiteDay } from './life.ts';
import css from '../office.module.css';

type Addition = CircuitView['additions'][number];
const ADDITION_WORDS: Readonly<Record<Addition['kind'], string>> = {
  'top-off': 'top-off',
  'at-repair': 'at a repair',
  past: 'told when the call was taken',
  'no-top-off': 'no top-off',
};
/** To the entry itself, where the row stands for one. */
const visitLink = (visitId: string | null, factId?: string) =>
  visitId === null ? (
    ''
  ) : (
    <Link href={`${visitPath(visitId)}${factId === undefined ? '' : `#${factAnchor(factId)}`}` as Route}>visit</Link>
  );

/** The line of time as a table: every number elsewhere leads to a row here. */
export function Additions({ additions }: { additions: readonly Addition[] }) {
  return (
    <Table
      caption="Gas added, net of a visit"
      showCaption
      rows={additions}
      keyOf={(one) => one.factIds.join()}
      empty={<p>No addition recorded.</p>}
      columns={[
        {
          id: 'day',
          head: 'Day',
          // Facts of one visit stand in one row; each can be pointed to, and all of them are the day's.
          cell: (one) =>
            one.factIds.reduce<ReactNode>(
              (inner, id) => (
                <span key={id} id={factAnchor(id)}>
                  {inner}
                </span>
              ),
              dayWords(one.day),
            ),
        },
        {
          id: 'mass',
          head: 'Mass',
          right: true,
          cell: (one) => (one.mass === null ? 'not known' : massWords(one.mass)),
        },
        {
          id: 'grams',
          head: 'In the books',
          right: true,
          cell: (one) => (one.grams === null ? 'nothing booked' : gramsWords(one.grams)),
        },
        {
          id: 'kind',
          head: 'Kind',
          cell: (one) => (
            <>
              {ADDITION_WORDS[one.kind]}
              {one.kind !== 'past' && <small>{one.reason}</small>}
            </>
          ),
        },
        { id: 'by', head: 'By', cell: (one) => (one.by === 'us' ? 'this firm' : 'somebody else') },
        { id: 'visit', head: 'Visit', cell: (one) => visitLink(one.visitId, one.factIds[0]) },
      ]}
    />
  );
}

export function Events({ events, at }: { events: readonly FactView[]; at: SiteDay }) {
  return (
    <Table
      caption="Repairs, tests, inspections and statements"
      showCaption
      rows={events}
      keyOf={(fact) => fact.id}
      empty={<p>No repair, test, inspection or statement recorded.</p>}
      columns={[
        {
          id: 'what',
          head: 'What',
          cell: (fact) => (
            <span id={factAnchor(fact.id)} className={fact.correctedById === null ? undefined : css['struck']}>
              {fact.title}
            </span>
          ),
        },
        {
          id: 'summary',
          head: 'Recorded',
          cell: (fact) => (
            <>
              {fact.summary}
              {fact.correctedById !== null && <small>corrected since</small>}
            </>
          ),
        },
        { id: 'at', head: 'When', cell: (fact) => momentWords(fact.happenedAt, at.zone) },
        { id: 'by', head: 'By', cell: (fact) => fact.by },
      ]}
    />
  );
}

const finely = (look: LookView): string =>
  look.sensitivityGramsPerYear === null ? 'not said' : `${look.sensitivityGramsPerYear} g/yr`;

export function Looks({ looks }: { looks: readonly LookView[] }) {
  return (
    <Section id="looks" title="Looks">
      <Table
        caption="Looks with day, place, instrument and result"
        rows={looks}
        keyOf={(look) => look.id}
        empty={<p>Nobody has looked here yet.</p>}
        columns={[
          {
            id: 'place',
            head: 'Place',
            cell: (look) => (
              <span id={factAnchor(look.id)}>
                {look.placesText.join(', ')}
                {look.where !== null && <small>{look.where}</small>}
              </span>
            ),
          },
          {
            id: 'result',
            head: 'Result',
            cell: (look) => (
              <>
                <State mark={lookMark(look)}>{look.inDoubt ? 'Clear, in doubt' : undefined}</State>
                {look.inDoubt && <small>its detector failed a check</small>}
                {look.why !== null && <small>{look.why}</small>}
              </>
            ),
          },
          {
            id: 'how',
            head: 'How',
            cell: (look) => (
              <>
                {look.methodText}
                {look.instrument !== null && `, ${look.instrument}`}
              </>
            ),
          },
          { id: 'finely', head: 'How finely', cell: finely },
          {
            id: 'day',
            head: 'Day',
            cell: (look) => (
              <>
                {dayWords(look.day)}
                <small>{look.by}</small>
              </>
            ),
          },
        ]}
      />
    </Section>
  );
}

const VISIT_MARKS: Readonly<Record<string, readonly [Mark, string]>> = {
  proposed: ['offer', 'Proposed'],
  placed: ['planned', 'Placed'],
  'on-site': ['live', 'On site'],
  done: ['done', 'Done'],
};

export function Visits({ visits, at }: { visits: UnitView['visits']; at: SiteDay }) {
  return (
    <Section id="visits" title="Visits">
      <Table
        caption="Visits to this unit"
        rows={visits}
        keyOf={(visit) => visit.id}
        empty={<p>Nobody has been here for us yet.</p>}
        columns={[
          { id: 'purpose', head: 'Purpose', cell: (visit) => <Link href={visitPath(visit.id)}>{visit.purpose}</Link> },
          {
            id: 'state',
            head: 'State',
            cell: (visit) => {
              const [mark, word] = VISIT_MARKS[visit.state] ?? (['unsure', visit.state] as const);
              return <State mark={mark}>{word}</State>;
            },
          },
          {
            id: 'at',
            head: 'When',
            cell: (visit) => (visit.at === null ? 'not placed yet' : momentWords(visit.at, at.zone)),
          },
          { id: 'people', head: 'Who', cell: (visit) => visit.people.join(', ') || 'nobody yet' },
        ]}
      />
    </Section>
  );
}

export function Rulebooks({ rulebooks, decision }: Pick<CircuitView, 'rulebooks' | 'decision'>) {
  return (
    <Section id="rulebooks" title="Which rulebooks cover it">
      {rulebooks.length === 0 && <p>No rulebook was asked.</p>}
      <ul className={css['books']}>
        {rulebooks.map((book) => (
          <li key={book.rulebook}>
            <p>
              <b>{book.title}</b>, edition of {dayWords(book.version)}
            </p>
            <p>
              <State mark={book.inScope ? 'done' : 'refused'}>{book.inScope ? 'Covers it' : 'Does not cover it'}</State>
              : {book.why} <cite>{book.clause}</cite>
            </p>
          </li>
        ))}
      </ul>
      {decision !== null && <p>Why use, equipment and subsector are as they are: {decision}</p>}
    </Section>
  );
}
