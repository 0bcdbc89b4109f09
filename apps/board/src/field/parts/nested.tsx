'use client';
import { useEffect, useRef, type KeyboardEvent, type ReactNode } from 'react';
import { BigButton } from '../../ui/phone/big-button.tsx';
import { ProblemBox } from './problem-box.tsx';
import type { StepForm } from './step-screen.tsx';
import css from './step.module.css';

export interface NestedProps {
  readonly title: string;
  readonly form: StepForm;
  readonly saveText: string;
  readonly onLeave: () => void;
  readonly children: ReactNode;
}

/** A small form inside a step, saved by itself: Enter saves it and not the step around it. */
export function Nested({ title, form, saveText, onLeave, children }: NestedProps) {
  const box = useRef<HTMLElement>(null);
  useEffect(() => box.current?.querySelector<HTMLElement>('input, select')?.focus(), []);
  const onKeyDown = (event: KeyboardEvent): void => {
    if (event.key !== 'Enter' || !(event.target instanceof HTMLInputElement)) return;
    event.preventDefault();
    void form.save();
  };
  return (
    <section ref={box} className={css['nested']} aria-label={title} onKeyDown={onKeyDown}>
      <h2>{title}</h2>
      <ProblemBox problem={form.problem} idOf={form.id} />
      {children}
      <BigButton kind="plain" busy={form.busy} onClick={() => void form.save()}>
        {form.busy ? 'Saving' : saveText}
      </BigButton>
      <button type="button" className={css['quietly']} onClick={onLeave}>
        Leave it
      </button>
    </section>
  );
}
