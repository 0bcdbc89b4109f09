'use client';
import { firstRefusal } from './drag-moment.ts';
import { DragNote } from './drag-note.tsx';
import { DragShade } from './drag-shade.tsx';
import { useDrag, type DragProps } from './use-drag.ts';

/** Draws what a drag is told: the moment under the pointer with the rules' words, and the starts that are not open. */
export function DragLayer(props: DragProps) {
  const { over, shades } = useDrag(props);
  return (
    <>
      {[...shades].map(([personId, stretches]) => (
        <DragShade key={personId} personId={personId} stretches={stretches} />
      ))}
      {over && (
        <DragNote
          {...{ x: over.x, top: over.top, moment: over.moment, refusal: firstRefusal(over.answer) }}
          name={props.data.people.find(({ id }) => id === over.personId)?.name ?? ''}
          warning={over.answer?.warnings[0]?.text}
        />
      )}
    </>
  );
}
