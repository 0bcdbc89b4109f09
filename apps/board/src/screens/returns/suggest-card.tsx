'use client';
import { SuggestionsView, type OfferView, type ReturnsView, type VisitHead } from '@ullage/contracts';
import { useEffect, useEffectEvent, useRef, useState, type ReactNode } from 'react';
import { call } from '../../lib/client.ts';
import { dayName } from '../../lib/local-time.ts';
import { offlineProblem, type Problem } from '../../lib/problem.ts';
import { RadioCards } from '../../ui/radio-cards.tsx';
import { Shape } from '../../ui/state.tsx';
import type { PlaceForm } from './place-command.ts';
import { figuresOf, formOfOffer, keyOf, namesInWords, noneInWords, offerInForm } from './suggest-words.ts';
import css from './suggest.module.css';

export interface SuggestCardProps {
  readonly visit: VisitHead;
  readonly form: PlaceForm;
  readonly people: ReturnsView['people'];
  readonly onChoose: (change: Partial<PlaceForm>) => void;
  readonly working: ReactNode;
}
type Answer = { readonly view: SuggestionsView } | { readonly problem: Problem };

async function ask(visitId: string, minutes: string, signal: AbortSignal): Promise<Answer> {
  const length = /^\d+$/.test(minutes.trim()) ? `?minutes=${minutes.trim()}` : '';
  const answer = await call<unknown>(`/v1/visits/${encodeURIComponent(visitId)}/suggestions${length}`, { signal });
  if (!answer.ok) return { problem: answer.problem };
  const read = SuggestionsView.safeParse(answer.data);
  return read.success ? { view: read.data } : { problem: offlineProblem() };
}

function useSuggestions({ visit, form, onChoose }: Omit<SuggestCardProps, 'working'>): Answer | undefined {
  const [answer, setAnswer] = useState<Answer>();
  const begin = useEffectEvent((signal: AbortSignal) => ask(visit.id, form.minutes, signal));
  const choose = useEffectEvent(onChoose);
  useEffect(() => {
    const going = new AbortController();
    begin(going.signal).then(
      (found) => {
        setAnswer(found);
        const [first] = 'view' in found ? found.view.offers : [];
        if (first) choose(formOfOffer(first));
      },
      // Only a request that was called off is thrown: nobody waits for it any more.
      () => undefined,
    );
    return () => going.abort();
  }, []);
  return answer;
}

/** Who goes where, as far as offers depend on it. */
const planOf = (people: ReturnsView['people']): string =>
  JSON.stringify(
    people.map(({ id, stops }) => [id, stops.map(({ visitId, startsAt, minutes }) => [visitId, startsAt, minutes])]),
  );

function Reasons({ offer }: { offer: OfferView }) {
  return (
    <ul className={css['why']} aria-label={`Why ${dayName(offer.day)}, ${offer.time}`}>
      {[...offer.warnings, ...offer.reasons].map(({ code, text }) => (
        <li key={code} data-warns={offer.warnings.some((warning) => warning.code === code) || undefined}>
          {text}
        </li>
      ))}
      {offer.alsoNames.length > 0 && <li>{namesInWords(offer.alsoNames)} could go at the same moment.</li>}
    </ul>
  );
}

function Barred({ barred }: Pick<SuggestionsView, 'barred'>) {
  if (barred.length === 0) return null;
  return (
    <details className={css['barred']}>
      <summary>{barred.length === 1 ? '1 person' : `${barred.length} people`} left out by law</summary>
      <ul>
        {barred.map(({ personId, name, text, clause }) => (
          <li key={personId}>
            <b>{name}.</b> {text} <cite>{clause}</cite>
          </li>
        ))}
      </ul>
    </details>
  );
}

const isPlacedAs = (chosen: OfferView | undefined, { startsAt, people }: VisitHead): boolean =>
  chosen?.startsAt === startsAt && chosen?.personId === people[0]?.personId;

const Changed = () => (
  <p className={css['note']} role="status">
    Somebody changed this visit meanwhile: what stands above holds now.
  </p>
);

/** Moments and people that keep every rule, each with more slack or less driving than the next. */
export function SuggestCard(props: SuggestCardProps) {
  const { visit, form, people, onChoose, working } = props;
  const answer = useSuggestions(props);
  const [plan] = useState(() => planOf(people));
  const group = useRef<HTMLDivElement>(null);
  const there = answer !== undefined;
  useEffect(() => {
    // Whoever asked by keyboard goes on from the first offer.
    if (there) group.current?.querySelector<HTMLElement>('input, p[tabindex]')?.focus();
  }, [there]);
  if (answer === undefined) return working;
  if ('problem' in answer)
    return (
      <p className={css['note']} role="alert">
        {answer.problem.detail || answer.problem.title}
      </p>
    );
  const { offers, barred, version } = answer.view;
  const chosen = offerInForm(offers, form);
  if (version < visit.version) return isPlacedAs(chosen, visit) ? null : <Changed />;
  return (
    <div ref={group} className={css['card']}>
      {offers.length === 0 ? (
        <p tabIndex={-1}>
          <Shape mark="refused" size={13} /> <b>{noneInWords(answer.view, people.length)}</b> Where a rule of our own
          may bend, choose the moment yourself and give a reason.
        </p>
      ) : (
        <RadioCards
          name="offer"
          label="Suggested"
          hint={offers.length === 1 ? 'Enter places it.' : 'Arrow keys change it, Enter places it.'}
          value={chosen && keyOf(chosen)}
          onChange={(key) => {
            const offer = offers.find((one) => keyOf(one) === key);
            if (offer) onChoose(formOfOffer(offer));
          }}
          choices={offers.map((offer) => ({
            value: keyOf(offer),
            text: `${dayName(offer.day)}, ${offer.time}`,
            note: (
              <>
                {offer.name}, {offer.certificates}
                <br />
                {figuresOf(offer)}
              </>
            ),
          }))}
        />
      )}
      {chosen && <Reasons offer={chosen} />}
      {plan !== planOf(people) && (
        <p className={css['note']} role="status">
          The plan has changed since these were worked out.
        </p>
      )}
      <Barred barred={barred} />
    </div>
  );
}
