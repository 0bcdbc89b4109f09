import type { AirCheckView, CylinderView } from '@ullage/contracts';
import { factAnchor } from '../link-to.ts';
import { Section } from '../section.tsx';
import { momentWords } from '../when.ts';
import css from '../office.module.css';
import { AirCheckAnswer } from './air-check-answer.tsx';

function Earlier({ check, zone }: { check: AirCheckView; zone: string }) {
  return (
    <li id={factAnchor(check.factId)}>
      {momentWords(check.at, zone)}: {check.text} {check.by}
    </li>
  );
}

/** The latest air check with what it rests on, and the earlier ones in a line each. */
export function AirChecksSection({ view: { airChecks }, zone }: { view: CylinderView; zone: string }) {
  const [latest, ...earlier] = airChecks;
  if (!latest)
    return (
      <Section id="air-checks" title="Air check">
        <p>Not checked yet. A check clears or confirms doubts about air; it certifies no purity.</p>
      </Section>
    );
  return (
    <Section id="air-checks" title={`Air check, ${momentWords(latest.at, zone)}`}>
      <div className={css['check']} id={factAnchor(latest.factId)}>
        <AirCheckAnswer check={latest} zone={zone} />
      </div>
      {earlier.length > 0 && (
        <details className={css['more']}>
          <summary>Earlier checks, {earlier.length}</summary>
          <ul className={css['reasons']}>
            {earlier.map((check) => (
              <Earlier key={check.factId} check={check} zone={zone} />
            ))}
          </ul>
        </details>
      )}
    </Section>
  );
}
