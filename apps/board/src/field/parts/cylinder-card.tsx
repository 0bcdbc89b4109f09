'use client';
import type { CylinderView } from '@ullage/contracts';
import { parseDecimal, multiply, rational, ZERO } from '@ullage/units';
import { useEffect, useState } from 'react';
import { Shape } from '../../ui/state.tsx';
import type { FieldPort } from '../port.ts';
import { massWords } from '../sums.ts';
import { sentence } from '../words.ts';
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

interface Wanted {
  readonly id: string;
  readonly use: CylinderUse;
  readonly refrigerant: string;
}
/** A cylinder as it stands; an empty one that is to be filled, with its limits for this gas. */
async function readCylinder(port: FieldPort, { id, use, refrigerant }: Wanted): Promise<CylinderView | undefined> {
  const found = await port.cylinder(id);
  if (!found.ok) return undefined;
  if (use === 'charge' || found.data.grossLimitKg !== null) return found.data;
  const room = await port.room(found.data, refrigerant);
  if (!room.ok) return found.data;
  const { grossLimitKg, roomKg, mayFill, whyNot } = room.data;
  return { ...found.data, grossLimitKg, roomKg, mayFill, whyNot };
}

/** What is in a cylinder, what more it takes, and why it may not be used for this. */
export function CylinderCard({ id, use, onKnown }: CylinderCardProps) {
  const { port, glance } = useVisit();
  const [view, setView] = useState<CylinderView>();
  const [failed, setFailed] = useState(false);
  const { refrigerant } = glance;
  useEffect(() => {
    let isGone = false;
    void readCylinder(port, { id, use, refrigerant }).then((found) => {
      if (isGone) return;
      setFailed(found === undefined);
      setView(found);
      onKnown(found);
    });
    return () => {
      isGone = true;
    };
    // eslint-disable-next-line react/exhaustive-deps -- who is told does not decide what is read
  }, [id, port, use, refrigerant]);
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
        <p key={doubt.id}>
          <b>{sentence(doubt.title)}</b> {doubt.text}
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
