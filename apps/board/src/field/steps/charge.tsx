'use client';
import { useState } from 'react';
import type { Check } from '../check.ts';
import { bind } from '../parts/bind.ts';
import { ColdBurn, Cylinder, Flammable, Rules } from '../parts/cautions.tsx';
import { ChargeSum } from '../parts/charge-sum.tsx';
import { useCorrection } from '../parts/correct.tsx';
import type { KnownCylinder } from '../parts/cylinder-card.tsx';
import { CylinderField, NO_CYLINDER } from '../parts/cylinder-field.tsx';
import { ServiceLoss } from '../parts/extra-note.tsx';
import { Figure, Keys, Line, MASS_KEYS } from '../parts/fields.tsx';
import { doubtsSaid, Happened, isHeldUp, needsWhy, NO_TICKS, SaidDoubts } from '../parts/gas-doubts.tsx';
import { StepScreen } from '../parts/step-screen.tsx';
import { netOf } from '../sums.ts';
import { type Form, useForm } from '../use-form.ts';
import { useUnits, useVisit } from '../visit-context.tsx';
import { FULL } from '../words.ts';
import { OutcomeCard } from '../parts/outcome-card.tsx';

const blank = (mass: string) => ({
  cylinder: NO_CYLINDER,
  before: { text: '', unit: mass },
  after: { text: '', unit: mass },
  full: '',
  seasonal: false,
  why: '',
  doubts: NO_TICKS,
  happened: NO_TICKS,
});

function whyOf(text: string, check: Check): { whyUnderDoubt?: string } {
  const whyUnderDoubt = check.optionalText(text);
  if (whyUnderDoubt !== undefined) return { whyUnderDoubt };
  check.fault('whyUnderDoubt', 'Why under doubt: say why its gas is used all the same.');
  return {};
}

function useCharge(known: KnownCylinder | undefined) {
  const { view, glance } = useVisit();
  const { mass } = useUnits();
  return useForm<ReturnType<typeof blank>, 'record-charge'>({
    name: 'charge',
    kind: 'record-charge',
    initial: blank(mass),
    build: (values, check) => {
      if (values.cylinder.id === '') check.fault('cylinderId', 'Cylinder: find it by its serial, or register it here.');
      if (isHeldUp(known, values.happened))
        check.fault('happened', 'Stopped: take another cylinder, or say that it was charged already.');
      const net = netOf(values.before, values.after, 'circuit');
      if (net.is === 'backwards')
        check.fault('after', 'Gross after: a cylinder that gave gas weighs less than before.');
      const full = check.choice('full', ['yes', 'no', 'unknown'], { label: 'Full', value: values.full });
      return {
        body: {
          visitId: view.visit.id,
          circuitId: glance.circuitId,
          cylinderId: values.cylinder.id,
          before: check.mass('before', 'Gross before', values.before),
          after: check.mass('after', 'Gross after', values.after),
          full,
          ...(values.seasonal && { seasonal: true }),
          ...doubtsSaid(values.doubts),
          ...(needsWhy(known) && whyOf(values.why, check)),
        },
        said: `${net.is === 'net' ? net.text : 'Gas'} from ${values.cylinder.text}`,
      };
    },
  });
}

/** The cylinder, with what stops the charge or makes it doubtful before any valve is opened. */
function FromCylinder({ form, known, onKnown }: FromCylinderProps) {
  return (
    <>
      <CylinderField {...bind(form, 'cylinder', 'cylinderId')} label="From cylinder" use="charge" onKnown={onKnown} />
      <Happened {...bind(form, 'happened')} known={known} text="It was charged already" />
      {needsWhy(known) && (
        <Line
          {...bind(form, 'why', 'whyUnderDoubt')}
          label="Why under doubt"
          hint="Why its gas is used all the same. It is kept under your name."
          maxLength={400}
        />
      )}
    </>
  );
}
interface FromCylinderProps {
  readonly form: Form<ReturnType<typeof blank>>;
  readonly known: KnownCylinder | undefined;
  readonly onKnown: (known: KnownCylinder | undefined) => void;
}

export function ChargeStep() {
  const { glance, view } = useVisit();
  const [known, setKnown] = useState<KnownCylinder>();
  const form = useCharge(known);
  const correction = useCorrection();
  const { values } = form;
  return (
    <StepScreen
      step="charge"
      form={form}
      names={['charge', 'new-cylinder-charge', 'correct-', 'service-loss']}
      saveText="Save this charge"
      addText="Another charge"
      onCorrect={correction.open}
      before={
        <>
          <ColdBurn />
          <Cylinder />
          <Flammable refrigerant={glance.refrigerant} />
          <Rules />
        </>
      }
      below={<ServiceLoss />}
      after={
        <>
          {correction.form}
          {view.outcome && <OutcomeCard outcome={view.outcome} />}
        </>
      }
    >
      <FromCylinder form={form} known={known} onKnown={setKnown} />
      <Figure {...bind(form, 'before')} label="Gross before" units={MASS_KEYS} hint="Scale zeroed, hose slack." />
      <Figure {...bind(form, 'after')} label="Gross after" units={MASS_KEYS} />
      <ChargeSum before={values.before} after={values.after} />
      <Keys
        {...bind(form, 'full')}
        label="Is the circuit full now?"
        choices={FULL}
        hint="Your word: full by weight, or by the maker’s superheat and subcooling after 15 minutes running."
      />
      <Keys
        id={form.id('seasonal')}
        error={form.error('seasonal')}
        label="Seasonal adjustment"
        hint="Gas moved for the season, taken out again later: it is no leak."
        choices={[
          { value: 'no', text: 'No' },
          { value: 'yes', text: 'Yes' },
        ]}
        value={values.seasonal ? 'yes' : 'no'}
        onChange={(value) => form.set({ seasonal: value === 'yes' })}
      />
      <SaidDoubts {...bind(form, 'doubts')} />
    </StepScreen>
  );
}
