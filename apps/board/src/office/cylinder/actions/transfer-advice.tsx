import type { CylinderUseAdvice } from '@ullage/contracts';
import type { MassUnit } from '@ullage/units';
import { CheckRow } from '../../../ui/check-row.tsx';
import { State } from '../../../ui/state.tsx';
import { atMostWords } from '../../masses.ts';
import css from './transfer-advice.module.css';
import type { TransferForm } from './transfer-form.ts';

interface TransferAdviceProps {
  readonly advice: CylinderUseAdvice;
  readonly unit: MassUnit;
  readonly form: TransferForm;
  readonly set: (change: Partial<TransferForm>) => void;
  readonly error: string | undefined;
}

/** What stops the transfer, what to mind, and how much may go in: read before the valves are opened. */
export function TransferAdvice({ advice, unit, form, set, error }: TransferAdviceProps) {
  const { stops, warnings, roomGrams, caution } = advice;
  const isStopped = stops.length > 0;
  return (
    <section
      className={css['advice']}
      data-stop={isStopped || undefined}
      role="status"
      aria-label="Before the transfer"
    >
      {!isStopped && (
        <p>
          <State mark={warnings.length > 0 ? 'half' : 'fine'}>Nothing stops it</State>
        </p>
      )}
      {stops.map(({ code, text, clause }) => (
        <p key={code}>
          <State mark="refused">Stop</State>: {text} {clause !== null && <cite>{clause}</cite>}
        </p>
      ))}
      {warnings.map(({ code, text }) => (
        <p key={code + text}>
          <State mark="unsure">Mind</State>: {text}
        </p>
      ))}
      <p>
        {roomGrams === null ? (
          'How much more it may take cannot be said: read its stamps and stay below its gross limit.'
        ) : (
          <>
            <b>{atMostWords(roomGrams, unit)} of room</b> in it, rounded down.
          </>
        )}
      </p>
      <p className="quiet">{caution}</p>
      {isStopped && (
        <div id="transfer-happened" tabIndex={-1}>
          <CheckRow
            checked={form.happened}
            aria-invalid={error !== undefined || undefined}
            note="It is booked as it happened, and somebody is asked to look."
            onChange={({ target }) => set({ happened: target.checked })}
          >
            It was moved already
          </CheckRow>
        </div>
      )}
    </section>
  );
}
