'use client';
import type { BrokenRule, Problem } from '@ullage/contracts';
import { Shape } from '../../ui/state.tsx';
import { isStop, pathsToTry } from '../faults.ts';
import css from './step.module.css';

interface ProblemBoxProps {
  readonly problem: Problem | undefined;
  readonly idOf: (path: string) => string;
}

function whose(rule: BrokenRule): string {
  const by = rule.whose === 'law' ? 'Law' : 'Our own rule';
  return rule.clause === undefined ? `${by}.` : `${by}: ${rule.clause}.`;
}

/**
 * Why nothing was recorded. Heavy edge: stopped before the act, do not go on. Each fault leads to its field; what was
 * typed stays.
 */
export function ProblemBox({ problem, idOf }: ProblemBoxProps) {
  if (!problem) return null;
  const stop = isStop(problem) || problem.rules?.[0]?.whose === 'law';
  const lead = (pointer: string) => (): void => {
    const found = pathsToTry(pointer).map((path) => document.getElementById(idOf(path)));
    found.find((element) => element !== null)?.focus();
  };
  const errors = problem.errors ?? [];
  return (
    <section id={idOf('problem')} tabIndex={-1} className={css['refused']} data-stop={stop || undefined} role="alert">
      <h2>
        <Shape mark="refused" size={15} />
        {problem.title}
      </h2>
      {problem.detail !== undefined && problem.detail !== '' && <p>{problem.detail}</p>}
      {errors.map((fault) => (
        <button key={fault.pointer + fault.detail} type="button" onClick={lead(fault.pointer)}>
          {fault.detail}
        </button>
      ))}
      {problem.rules?.map((rule) => (
        <p key={rule.code} className={css['source']}>
          {whose(rule)} {rule.instead}
        </p>
      ))}
    </section>
  );
}
