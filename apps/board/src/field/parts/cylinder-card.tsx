'use client';
import type { CylinderView } from '@ullage/contracts';
import { parseDecimal, multiply, rational, ZERO } from '@ullage/units';
import { useEffect, useState } from 'react';
import { Shape } from '../../ui/state.tsx';
import { massWords } from '../sums.ts';
import { useUnits, useVisit } from '../visit-context.tsx';
import css from './step.module.css';

export type CylinderUse = 'recovery' | 'charge';

const gramsOfKg = (kg: number) => multiply(parseDecimal(kg.toFixed(6)) ?? ZERO, rational(1000n));

/** What stands against the act, said before it. */
function stopsOf(view: CylinderView, use: CylinderUse, refrigerant: string): readonly string[] {
  if (use === 'recovery') return view.mayFill ? [] : view.whyNot.map((why) => why.text);
  const other = view.contents.filter((part) => part.refrigerant !== refrigerant && part.grams > 0);
  return [
    ...other.map((part) => `It holds ${part.refrigerant}, and this circuit runs on ${refrigerant}.`),
    ...view.doubts.filter((doubt) => doubt.blocks).map((doubt) => doubt.text),
  ];
}

/** What is in a cylinder, what more it takes, and why it may not be used for this. */
export function CylinderCard({ id, use, onKnown }: CylinderCardProps) {
  const { port, glance } = useVisit();
  const [view, setView] = useState<CylinderView>();
  const [failed, setFailed] = useState(false);
  useEffect(() => {
    let isGone = false;
    void port.cylinder(id).then((answer) => {
      if (isGone) return;
      setFailed(!answer.ok);
      if (!answer.ok) return;
      setView(answer.data);
      onKnown(answer.data);
    });
    return () => {
      isGone = true;
    };
    // eslint-disable-next-line react/exhaustive-deps -- who is told does not decide what is read
  }, [id, port]);
  if (failed)
    return <p className={css['source']}>What it holds cannot be read now. Weigh it before and after all the same.</p>;
  if (!view) return <p className={css['source']}>Reading what it holds</p>;
  const stops = stopsOf(view, use, glance.refrigerant);
  const warnings = view.doubts.filter((doubt) => use === 'recovery' || !doubt.blocks);
  return (
    <section
      className={css['card']}
      data-stop={stops.length > 0 || undefined}
      aria-label={`Cylinder ${view.cylinder.serial}`}
    >
      <h2>
        {stops.length > 0 && <Shape mark="refused" size={15} />}
        <span className="id">{view.cylinder.serial}</span> {view.cylinder.kind}
      </h2>
      <Contents view={view} use={use} />
      {stops.length > 0 && (
        <p>
          <b>{use === 'recovery' ? 'Do not fill it.' : 'Do not charge from it.'}</b> {stops.join(' ')}
        </p>
      )}
      {warnings.map((doubt) => (
        <p key={doubt.cause + doubt.at}>
          <b>{doubt.title}.</b> {doubt.text}
        </p>
      ))}
    </section>
  );
}
export interface CylinderCardProps {
  readonly id: string;
  readonly use: CylinderUse;
  readonly onKnown: (cylinder: CylinderView | undefined) => void;
}

function Contents({ view, use }: { view: CylinderView; use: CylinderUse }) {
  const { mass } = useUnits();
  const held = view.contents.filter((part) => part.grams > 0);
  const holds =
    held.length === 0
      ? 'Empty.'
      : `Holds ${held.map((part) => `${massWords(rational(part.grams), mass)} ${part.refrigerant}, ${part.state}`).join('; ')}.`;
  return (
    <p>
      {holds}
      {use === 'recovery' && view.roomKg !== null && (
        <>
          {' '}
          <b>Room {massWords(gramsOfKg(view.roomKg), mass, 'down')}.</b>
        </>
      )}
      {use === 'recovery' &&
        view.grossLimitKg !== null &&
        ` Never over ${massWords(gramsOfKg(view.grossLimitKg), mass, 'down')} gross.`}
    </p>
  );
}
