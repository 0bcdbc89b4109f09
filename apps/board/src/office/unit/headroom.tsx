import type { CircuitView, HeadroomView } from '@ullage/contracts';
import { HeadroomBar } from '../../pictures/headroom-bar.tsx';
import { drawnUnit, massIn, massWords } from '../masses.ts';
import { Reasons, Section } from '../section.tsx';
import css from '../office.module.css';

/** What the headroom means, as a sentence: before the valve is opened. */
function claim(headroom: HeadroomView, over: boolean) {
  const limit = `${headroom.thresholdPercent} %`;
  if (headroom.grams > 0)
    return (
      <>
        <b>More than {massWords(headroom.mass)} today</b> and this circuit is over {limit}.
      </>
    );
  return over ? (
    <>
      <b>No room today.</b> This circuit is over {limit} already; whatever goes in adds to it.
    </>
  ) : (
    <>
      <b>No room today.</b> Whatever goes in, this circuit is over {limit}.
    </>
  );
}

export function Headroom({ circuit }: { circuit: CircuitView }) {
  const { headroom, headroomWhyNot, latest, fullCharge } = circuit;
  if (!headroom)
    return (
      <Section id="headroom" title="Headroom">
        <p>{headroomWhyNot ?? 'No rulebook asks for a rate here, so there is no line to stay under.'}</p>
      </Section>
    );
  const unit = drawnUnit(headroom.mass.unit);
  const text = massWords(headroom.mass);
  return (
    <Section id="headroom" title="Headroom">
      <p className={css['claim']}>{claim(headroom, latest?.over === true)}</p>
      <HeadroomBar
        headroom={massIn(headroom.mass, unit)}
        unit={unit}
        text={text}
        atLeast={massIn(fullCharge.mass, unit) * 0.04}
        label={`${text} may still go in today before the rate is over ${headroom.thresholdPercent} %`}
      />
      <Reasons reasons={headroom.reasons} />
    </Section>
  );
}
