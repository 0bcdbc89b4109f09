'use client';
import { SAID_DOUBT_CHOICES, saidDoubts } from '../../lib/said-doubts.ts';
import type { Bound } from './bind.ts';
import type { KnownCylinder } from './cylinder-card.tsx';
import { Ticks } from './fields.tsx';

/** Ticks of a form before any is set. */
export const NO_TICKS: readonly string[] = [];

/** What may be wrong with the gas of this act; nobody has to say anything. */
export const SaidDoubts = (bound: Bound<readonly string[]>) => (
  <Ticks {...bound} label="Doubtful about this gas" optional choices={SAID_DOUBT_CHOICES} />
);

/** What was said about the gas, as the command has it; nothing where nobody said anything. */
export const doubtsSaid = (chosen: readonly string[]) => (chosen.length === 0 ? {} : { doubts: saidDoubts(chosen) });

/** What is only unknown about its stamps is said and holds nobody up; what the act itself must not do, does. */
const isStopped = (known: KnownCylinder | undefined): known is KnownCylinder =>
  known?.advice !== undefined && known.advice.stops.length > 0;

/** Something stops the act, and nobody has said that it is done with this cylinder all the same. */
export const isHeldUp = (known: KnownCylinder | undefined, happened: readonly string[]): boolean =>
  isStopped(known) && !happened.includes(known.view.cylinder.id);

/** Where the act is stopped: what was done against it is recorded as it was, and somebody looks. */
export function Happened({ known, text, ...bound }: Bound<readonly string[]> & HappenedProps) {
  if (!isStopped(known)) return null;
  return (
    <Ticks
      {...bound}
      label="Stopped"
      hint="Take another cylinder. Only when it is done already: it is booked as it was, and the office is asked to look."
      choices={[{ value: known.view.cylinder.id, text }]}
    />
  );
}
interface HappenedProps {
  readonly known: KnownCylinder | undefined;
  readonly text: string;
}

/** Why gas under a doubt that only warns is charged all the same: asked for where the API wants it. */
export const needsWhy = (known: KnownCylinder | undefined): boolean => known?.advice?.reasonNeeded === true;
