'use client';
import { compare, subtract, ZERO } from '@ullage/units';
import type { MassUnit } from '@ullage/units';
import { Shape } from '../../ui/state.tsx';
import type { Typed } from '../check.ts';
import { massWords, netOf, netOfVisit, rateHint, type RateHint } from '../sums.ts';
import { factsAt } from '../steps.ts';
import { weightsOf } from '../weights.ts';
import { useVisit, type VisitScreen } from '../visit-context.tsx';
import css from './step.module.css';

/** The rate that this charge would give; undefined where no headroom is known. */
function hintFor(screen: VisitScreen, before: Typed, after: Typed): RateHint | undefined {
  const { glance, view } = screen;
  const net = netOf(before, after, 'circuit');
  if (net.is !== 'net' || !glance.headroom) return undefined;
  const at = (step: 'charge' | 'recovery') => factsAt(view.facts, step, glance.circuitId);
  return rateHint({
    room: glance.headroom.mass,
    thresholdPercent: glance.headroom.thresholdPercent,
    counted: netOfVisit(weightsOf(at('charge'), view.facts), weightsOf(at('recovery'), view.facts)),
    more: net.grams,
    fullCharge: glance.fullCharge,
    method: view.site.leakRateMethod,
  });
}

function RateLine({ hint, thresholdPercent, unit }: { hint: RateHint; thresholdPercent: number; unit: MassUnit }) {
  if (hint.is === 'already-over')
    return <p>This circuit is over {thresholdPercent} % already; every addition raises it.</p>;
  const over = hint.is === 'over';
  const by = massWords(over ? subtract(ZERO, hint.room) : hint.room, unit, over ? 'half-up' : 'down');
  return (
    <>
      <h2>
        <Shape mark={over ? 'over' : 'under'} size={15} />
        {over ? `Over ${thresholdPercent} %` : `Not over ${thresholdPercent} %`}
        {hint.aboutPercent !== null && `: about ${hint.aboutPercent} % a year`}
      </h2>
      <p>
        {over
          ? `${by} more than the headroom. Charge what it needs; the law then asks for an inspection, the repair and its proof.`
          : compare(hint.room, ZERO) === 0
            ? 'The headroom is used up exactly.'
            : `${by} headroom left after this.`}
      </p>
    </>
  );
}

/** Net of this charge, what is left of the headroom, and the rate it would give: while it is typed. */
export function ChargeSum({ before, after }: { before: Typed; after: Typed }) {
  const screen = useVisit();
  const net = netOf(before, after, 'circuit');
  if (net.is === 'not-yet') return null;
  const hint = hintFor(screen, before, after);
  const { headroom } = screen.glance;
  return (
    <>
      <section className={css['sum']} aria-live="polite">
        <span>{net.is === 'net' ? 'Net into the circuit' : 'The wrong way round: heavier by'}</span>
        <b className="fig">{net.text}</b>
      </section>
      {hint && headroom && (
        <section className={css['card']} aria-label="Rate" aria-live="polite">
          <RateLine hint={hint} thresholdPercent={headroom.thresholdPercent} unit={headroom.mass.unit} />
          <p className={css['source']}>Counted net of what was taken out at this visit. {headroom.clause}.</p>
        </section>
      )}
    </>
  );
}
