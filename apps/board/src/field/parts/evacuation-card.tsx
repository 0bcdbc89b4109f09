'use client';
import type { EvacuationAdvice, EvacuationQuery, Problem } from '@ullage/contracts';
import { useEffect, useState } from 'react';
import { kpaOf, pressureWords } from '../sums.ts';
import { sentence } from '../words.ts';
import { useUnits, useVisit } from '../visit-context.tsx';
import css from './step.module.css';
import { StopLine } from './stop-line.tsx';

const REMOVES = [
  'compressor',
  'condenser',
  'evaporator',
  'auxiliary-coil',
  'other',
] as const satisfies readonly EvacuationQuery['removes'][];
interface Figured {
  readonly text: string;
  readonly unit: string;
}
/** What this card reads of a recovery that is being written down. */
interface RecoveryPlan {
  readonly part: string;
  readonly openLeak: string;
  readonly removes: string;
  readonly squareInches: Figured;
  readonly openMinutes: Figured;
  readonly stop: Figured;
}
const numberOf = (text: string): number | undefined => (/^\d+(\.\d+)?$/.test(text.trim()) ? Number(text) : undefined);

/** What the law's level depends on, of what is typed so far; undefined while the part is not said. */
function questionOf(values: RecoveryPlan, circuitId: string): EvacuationQuery | undefined {
  const { part } = values;
  if (part !== 'whole' && part !== 'isolated') return undefined;
  return {
    circuitId,
    part,
    openLeak: values.openLeak === 'yes',
    removes: REMOVES.find((one) => one === values.removes),
    openingSquareInches: numberOf(values.squareInches.text),
    openMinutes: numberOf(values.openMinutes.text),
    evacuateAfter: true,
  };
}

/** Asks again when an answer that matters has changed; what was known stays meanwhile. */
function useAdvice(question: EvacuationQuery | undefined) {
  const { port, view } = useVisit();
  const [advice, setAdvice] = useState<EvacuationAdvice>();
  const [problem, setProblem] = useState<Problem>();
  const asked = question && JSON.stringify(question);
  useEffect(() => {
    if (asked === undefined) return;
    let isGone = false;
    const timer = setTimeout(() => {
      void port.evacuation(view.visit.id, JSON.parse(asked) as EvacuationQuery).then((answer) => {
        if (isGone) return;
        setProblem(answer.ok ? undefined : answer.problem);
        if (answer.ok) setAdvice(answer.data);
      });
    }, 150);
    return () => {
      isGone = true;
      clearTimeout(timer);
    };
  }, [asked, port, view.visit.id]);
  return { advice, problem };
}

/** The level the law asks of this recovery and what going lower risks: said before the act. */
export function EvacuationCard({ values }: { values: RecoveryPlan }) {
  const { view, glance } = useVisit();
  const question = questionOf(values, glance.circuitId);
  const { advice, problem } = useAdvice(question);
  if (!question)
    return (
      <p className={css['source']}>
        Say what you take it from: the level the law asks then stands here, before you start.
      </p>
    );
  const { barometerKpa, elevationAssumed } = view.site;
  if (advice) return <Advice {...{ advice, elevationAssumed }} readKpa={kpaOf(values.stop, barometerKpa)} />;
  if (!problem) return <p className={css['source']}>Asking what level the law wants</p>;
  return (
    <section className={css['card']} data-stop role="alert">
      <h2>The level is not known now</h2>
      <p>
        {problem.detail ?? problem.title} Never draw a vacuum on an open leak; stop at site pressure until you know.
      </p>
    </section>
  );
}

interface AdviceProps {
  readonly advice: EvacuationAdvice;
  readonly readKpa: number | undefined;
  readonly elevationAssumed: boolean;
}
function Advice({ advice, readKpa, elevationAssumed }: AdviceProps) {
  const { pressure } = useUnits();
  return (
    <section
      className={css['card']}
      data-stop={advice.risk !== null || undefined}
      aria-label="Before you start"
      aria-live="polite"
    >
      <h2>{sentence(advice.levelText)}</h2>
      <StopLine advice={advice} readKpa={readKpa} />
      <p>
        {advice.major ? 'Major work' : 'Not major work'}. {advice.clause}.
      </p>
      {advice.risk !== null && <p>{advice.risk}</p>}
      <p className={css['source']}>
        Site pressure {pressureWords(advice.siteKpa, 'kpa', advice.siteKpa)}, that is{' '}
        {pressureWords(advice.siteKpa, pressure, advice.siteKpa)}.
        {elevationAssumed &&
          ' The height of the site is not known: sea level is taken. Ask the office to put it right.'}
      </p>
    </section>
  );
}
