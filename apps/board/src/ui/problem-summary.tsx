'use client';
import { useEffect, useRef } from 'react';
import { Shape } from './state.tsx';
import css from './problem-summary.module.css';

export interface ProblemSummaryProps {
  /** Nothing is shown while undefined. A new object takes the focus, so that the list is read. */
  readonly problem:
    | {
        readonly title: string;
        readonly detail: string;
        readonly errors: readonly { readonly pointer: string; readonly detail: string }[];
      }
    | undefined;
  /** The id and label of the control a pointer belongs to; without one the entry is plain text. */
  readonly fieldOf: (pointer: string) => { readonly id: string; readonly label: string } | undefined;
}

/** What stands in the way, at the head of a form, each entry leading to its field. */
export function ProblemSummary({ problem, fieldOf }: ProblemSummaryProps) {
  const box = useRef<HTMLDivElement>(null);
  useEffect(() => {
    if (problem) box.current?.focus();
  }, [problem]);
  if (!problem) return null;
  return (
    <div ref={box} tabIndex={-1} role="alert" className={css['summary']}>
      <h3>
        <Shape mark="refused" size={13} />
        {problem.title}
      </h3>
      {problem.errors.length === 0 && problem.detail && <p>{problem.detail}</p>}
      {problem.errors.length > 0 && (
        <ul>
          {problem.errors.map(({ pointer, detail }) => {
            const field = fieldOf(pointer);
            return (
              <li key={pointer + detail}>
                {field ? (
                  <a
                    href={`#${field.id}`}
                    onClick={(event) => {
                      event.preventDefault();
                      document.getElementById(field.id)?.focus();
                    }}
                  >
                    {detail.startsWith(`${field.label}:`) ? detail : `${field.label}: ${detail}`}
                  </a>
                ) : (
                  detail
                )}
              </li>
            );
          })}
        </ul>
      )}
    </div>
  );
}
