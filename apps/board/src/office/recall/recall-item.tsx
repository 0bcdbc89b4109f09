import type { RecallItemView, RecallStepView, RecallView } from '@ullage/contracts';
import type { MassUnit } from '@ullage/units';
import type { Route } from 'next';
import Link from 'next/link';
import { Actions } from '../../ui/button.tsx';
import { ButtonLink } from '../../ui/button-link.tsx';
import { State } from '../../ui/state.tsx';
import { cylinderPath, factAnchor, unitPath, visitPath } from '../link-to.ts';
import { aboutWords } from '../masses.ts';
import { momentWords } from '../when.ts';
import css from '../office.module.css';
import { RecallActs } from './recall-acts.tsx';
import { SETTLED_WORDS } from './words.ts';

export interface RecallItemProps {
  readonly recall: Pick<RecallView, 'id' | 'kind'>;
  readonly item: RecallItemView;
  readonly unit: MassUnit;
  readonly maySettle: boolean;
}

/** Where a thing is shown: a look or a test where it was made, a circuit with its unit. */
function pathOf({ kind, id, cylinderId, unitId, circuitLetter, visitId }: RecallItemView): Route | undefined {
  if (kind === 'cylinder') return cylinderPath(id);
  if (kind === 'circuit' && unitId !== null) return unitPath(unitId, circuitLetter);
  if (visitId !== null) return `${visitPath(visitId)}#${factAnchor(id)}` as Route;
  return cylinderId === null ? undefined : cylinderPath(cylinderId);
}

function Step({ step, zone, unit }: { step: RecallStepView; zone: string; unit: MassUnit }) {
  const { from, to, by, at, grams, visitId } = step;
  const what = by.charAt(0).toLowerCase() + by.slice(1);
  return (
    <li>
      from <span className="id">{from}</span> to <span className="id">{to}</span> by{' '}
      {visitId === null ? what : <Link href={visitPath(visitId)}>{what}</Link>}, {momentWords(at, zone)}
      {grams !== null && <>, {aboutWords(grams, unit)}</>}
    </li>
  );
}

/** The way from the source to here, and what more came later. */
function Way({ item: { way, more, timeZone }, unit }: Pick<RecallItemProps, 'item' | 'unit'>) {
  if (way.length === 0) return <p className="quiet">Where it began.</p>;
  const steps = (all: readonly RecallStepView[]) =>
    all.map((step, i) => <Step key={`${step.at}${i}`} step={step} zone={timeZone} unit={unit} />);
  return (
    <>
      <ol className={css['path']}>{steps(way)}</ol>
      {more.length > 0 && (
        <details className={css['more']}>
          <summary>{more.length === 1 ? 'And once more' : `And ${more.length} times more`}</summary>
          <ol className={css['path']}>{steps(more)}</ol>
        </details>
      )}
    </>
  );
}

function Settled({ settled, zone }: { settled: NonNullable<RecallItemView['settled']>; zone: string }) {
  const { how, why, by, at, visitId } = settled;
  return (
    <p>
      <State mark="done">{SETTLED_WORDS[how]}</State>
      <span className="quiet">
        {' '}
        by {by}, {momentWords(at, zone)}
      </span>
      {why !== null && <>: {why}</>}
      {visitId !== null && (
        <>
          ; <Link href={visitPath(visitId)}>the visit</Link>
        </>
      )}
    </p>
  );
}

/** What else may be done about it, where that is done on a page of its own. */
function Elsewhere({ recall, item }: Pick<RecallItemProps, 'recall' | 'item'>) {
  const path = pathOf(item);
  if (!path) return null;
  if (item.kind === 'cylinder')
    return <ButtonLink href={path}>{recall.kind === 'gas' ? 'Check its air' : 'Weigh it again'}</ButtonLink>;
  return item.kind === 'weighing' ? <ButtonLink href={path}>See the weights</ButtonLink> : null;
}

/** One thing that was touched: what it is, how it was reached, how much came, and what is done about it. */
export function RecallItem({ recall, item, unit, maySettle }: RecallItemProps) {
  const path = pathOf(item);
  const { settled, grams, text, place, timeZone } = item;
  return (
    <li data-work={settled === null ? 'waits' : 'done'}>
      <h3>{path ? <Link href={path}>{item.title}</Link> : item.title}</h3>
      <p className="quiet">
        {place !== null && <>{place}; </>}
        {momentWords(item.at, timeZone)}
        {grams !== null && (
          <>
            ; <b>{aboutWords(grams, unit)}</b>
          </>
        )}
      </p>
      {text !== null && <p>{text}</p>}
      <Way item={item} unit={unit} />
      {settled !== null && <Settled settled={settled} zone={timeZone} />}
      {item.again && (
        <p>
          <State mark="soon">More came to it</State> since it was settled.
        </p>
      )}
      {settled === null && maySettle && (
        <div className={css['acts']}>
          <RecallActs recallId={recall.id} item={item} />
          <Actions>
            <Elsewhere recall={recall} item={item} />
          </Actions>
        </div>
      )}
    </li>
  );
}
