import type { CylinderView } from '@ullage/contracts';
import Link from 'next/link';
import { factAnchor, manifestPath } from '../link-to.ts';
import { Section } from '../section.tsx';
import { momentWords } from '../when.ts';
import css from './custody.module.css';
import { TakeBack } from './take-back.tsx';

type Step = CylinderView['custody'][number];

function What({ step: { what, text, manifestId } }: { step: Step }) {
  return (
    <span>
      <b>{manifestId === null ? what : <Link href={manifestPath(manifestId)}>{what}</Link>}</b> {text}
    </span>
  );
}

export interface CustodySectionProps {
  readonly view: CylinderView;
  readonly zone: string;
  readonly mayHandle: boolean;
}
/** Where it was brought, and by whom; the last report can be taken back. */
export function CustodySection({ view: { custody }, zone, mayHandle }: CustodySectionProps) {
  return (
    <Section id="custody" title="Where it has been" note="the latest first">
      {custody.length === 0 && <p>Nobody has said yet where it is.</p>}
      {custody.length > 0 && (
        <ol className={css['steps']}>
          {custody.map((step) => (
            <li key={step.factId} id={factAnchor(step.factId)}>
              <What step={step} />
              <small>
                {momentWords(step.at, zone)}
                {step.by !== null && `, ${step.by}`}
              </small>
              {mayHandle && step.mayTakeBack && <TakeBack factId={step.factId} what={step.what} />}
            </li>
          ))}
        </ol>
      )}
    </Section>
  );
}
