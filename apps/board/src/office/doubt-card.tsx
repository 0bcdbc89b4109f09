import type { DoubtStep, DoubtView } from '@ullage/contracts';
import Link from 'next/link';
import type { ReactNode } from 'react';
import { State } from '../ui/state.tsx';
import { cylinderPath, factPath, unitPath, visitPath } from './link-to.ts';
import { momentWords } from './when.ts';
import css from './office.module.css';

/** The cylinder or circuit of a step, and the fact by which the doubt came there. */
function Step({ step, zone }: { step: DoubtStep; zone: string }) {
  const { subjectKind, subjectId, title, unitId, circuitLetter, factId, factTitle, visitId, at } = step;
  const isCylinder = subjectKind === 'cylinder';
  const subject = isCylinder ? cylinderPath(subjectId) : unitId === null ? undefined : unitPath(unitId, circuitLetter);
  const fact = factPath({
    ...{ id: factId, title: factTitle, summary: '', happenedAt: at, visitId, unitId, circuitLetter },
    cylinderId: isCylinder ? subjectId : null,
  });
  return (
    <li>
      {subject ? (
        <Link className="id" href={subject}>
          {title}
        </Link>
      ) : (
        <span className="id">{title}</span>
      )}
      : {fact ? <Link href={fact}>{factTitle.toLowerCase()}</Link> : factTitle.toLowerCase()}, {momentWords(at, zone)}
    </li>
  );
}

/** The way by which a doubt came, from where it first arose to here. */
export function DoubtPath({ path, zone }: { path: readonly DoubtStep[]; zone: string }) {
  return (
    <ol className={css['path']}>
      {path.map((step) => (
        <Step key={`${step.subjectId}${step.factId}`} step={step} zone={zone} />
      ))}
    </ol>
  );
}

const standing = ({ blocks, confirmed }: DoubtView): string => {
  if (confirmed) return 'confirmed by an air check; not to be used';
  return blocks ? 'blocks its use until it is checked' : 'a warning; it may be used, with a reason';
};

/** One doubt: what is suspected, how much at most, since when, and by which way it came. */
export function DoubtCard({ doubt, zone, children }: { doubt: DoubtView; zone: string; children?: ReactNode }) {
  return (
    <li>
      <p>
        <State mark={doubt.confirmed ? 'over' : 'unsure'}>
          {doubt.title.charAt(0).toUpperCase() + doubt.title.slice(1)}
        </State>
        : <b>{children ?? standing(doubt)}</b>
      </p>
      <p>{doubt.text}</p>
      <p className="quiet">
        {doubt.minutes !== null && `${doubt.minutes} min below site pressure; `}
        {momentWords(doubt.at, zone)}
        {doubt.visitId !== null && (
          <>
            ; <Link href={visitPath(doubt.visitId)}>the visit</Link>
          </>
        )}
      </p>
      <DoubtPath path={doubt.path} zone={zone} />
    </li>
  );
}
