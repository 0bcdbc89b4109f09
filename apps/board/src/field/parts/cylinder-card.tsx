'use client';
import type { CylinderUseAdvice, CylinderView } from '@ullage/contracts';
import { parseDecimal, multiply, rational, ZERO } from '@ullage/units';
import { useEffect, useState } from 'react';
import { Shape, State } from '../../ui/state.tsx';
import type { FieldPort } from '../port.ts';
import { massWords } from '../sums.ts';
import { useUnits, useVisit } from '../visit-context.tsx';
import css from './step.module.css';

export type CylinderUse = 'recovery' | 'charge';

const gramsOfKg = (kg: number) => multiply(parseDecimal(kg.toFixed(6)) ?? ZERO, rational(1000n));

/** A cylinder as it stands and what is to be said before it is used; advice stays away when it cannot be asked for. */
export interface KnownCylinder {
  readonly view: CylinderView;
  readonly advice: CylinderUseAdvice | undefined;
  /** What stands against the act. */
  readonly stops: readonly string[];
}

interface Wanted {
  readonly id: string;
  readonly use: CylinderUse;
  readonly refrigerant: string;
  readonly circuitId: string;
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

/** The same said by the act and by the stamps is said once: the stamps say it with more detail. */
const BY_STAMPS: readonly string[] = [
  'disposable-used-for-recovery',
  'requalification-overdue',
  'service-pressure-too-low',
  'overfill',
];
function stopsOf(view: CylinderView, use: CylinderUse, advice: CylinderUseAdvice | undefined): readonly string[] {
  const ofAct = advice?.stops ?? [];
  if (use === 'charge') return ofAct.map(({ text }) => text);
  const stamped = view.mayFill ? [] : view.whyNot.map(({ text }) => text);
  const more = ofAct.filter(({ code }) => stamped.length === 0 || !BY_STAMPS.includes(code));
  return [...stamped, ...more.map(({ text }) => text)];
}

async function readKnown(port: FieldPort, wanted: Wanted): Promise<KnownCylinder | undefined> {
  const { id, use, circuitId } = wanted;
  const [view, asked] = await Promise.all([readCylinder(port, wanted), port.cylinderUse(id, { act: use, circuitId })]);
  if (!view) return undefined;
  const advice = asked.ok ? asked.data : undefined;
  return { view, advice, stops: stopsOf(view, use, advice) };
}

/** What is in a cylinder, what more it takes, and why it may not be used for this. */
export function CylinderCard({ id, use, onKnown }: CylinderCardProps) {
  const { port, glance } = useVisit();
  const [known, setKnown] = useState<KnownCylinder>();
  const [failed, setFailed] = useState(false);
  const { refrigerant, circuitId } = glance;
  useEffect(() => {
    let isGone = false;
    void readKnown(port, { id, use, refrigerant, circuitId }).then((found) => {
      if (isGone) return;
      setFailed(found === undefined);
      setKnown(found);
      onKnown(found);
    });
    return () => {
      isGone = true;
      onKnown(undefined);
    };
    // eslint-disable-next-line react/exhaustive-deps -- who is told does not decide what is read
  }, [id, port, use, refrigerant, circuitId]);
  if (failed)
    return <p className={css['source']}>What it holds cannot be read now. Weigh it before and after all the same.</p>;
  if (!known) return <p className={css['source']}>Reading what it holds</p>;
  const { view, advice, stops } = known;
  return (
    <section
      className={css['card']}
      data-stop={stops.length > 0 || undefined}
      aria-label={`Cylinder ${view.cylinder.serial}`}
      aria-live="polite"
    >
      <h2>
        {stops.length > 0 && <Shape mark="refused" size={15} />}
        <span className="id">{view.cylinder.serial}</span> {view.cylinder.kind}
      </h2>
      <Contents view={view} use={use} />
      {stops.map((text, at) => (
        <p key={text}>
          {at === 0 && <b>{use === 'recovery' ? 'Do not fill it.' : 'Stop.'}</b>} {text}
        </p>
      ))}
      {advice?.warnings.map(({ code, text }) => (
        <p key={code + text}>
          <State mark="unsure">In doubt</State>: {text}
        </p>
      ))}
      {advice === undefined && view.doubts.map((doubt) => <p key={doubt.id}>{doubt.text}</p>)}
      {advice && <p className={css['source']}>{advice.caution}</p>}
    </section>
  );
}
export interface CylinderCardProps {
  readonly id: string;
  readonly use: CylinderUse;
  readonly onKnown: (known: KnownCylinder | undefined) => void;
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
