'use client';
import type { CommandBody } from '@ullage/contracts';
import { useState } from 'react';
import type { Check } from '../check.ts';
import { bind } from '../parts/bind.ts';
import { ColdBurn, Cylinder, Flammable, Rules } from '../parts/cautions.tsx';
import { useCorrection } from '../parts/correct.tsx';
import type { KnownCylinder } from '../parts/cylinder-card.tsx';
import { CylinderField, NO_CYLINDER } from '../parts/cylinder-field.tsx';
import { EvacuationCard } from '../parts/evacuation-card.tsx';
import { Figure, Keys, Line, LOW_PRESSURE_KEYS, MASS_KEYS, MINUTE_KEYS, Pick } from '../parts/fields.tsx';
import { RecoverySum } from '../parts/recovery-sum.tsx';
import { doubtsSaid, Happened, isHeldUp, NO_TICKS, SaidDoubts } from '../parts/gas-doubts.tsx';
import { StepScreen } from '../parts/step-screen.tsx';
import { isBelowSite, netOf } from '../sums.ts';
import { type Form, useForm } from '../use-form.ts';
import { useUnits, useVisit } from '../visit-context.tsx';
import { type Choice, YES_NO } from '../words.ts';

const PARTS = [
  { value: 'isolated', text: 'An isolated part' },
  { value: 'whole', text: 'The whole circuit' },
] as const satisfies readonly Choice[];
type Removed = NonNullable<CommandBody<'record-recovery'>['work']['removes']>;
const REMOVED = [
  { value: 'compressor', text: 'Compressor' },
  { value: 'condenser', text: 'Condenser' },
  { value: 'evaporator', text: 'Evaporator' },
  { value: 'auxiliary-coil', text: 'Auxiliary heat exchanger coil' },
  { value: 'other', text: 'Another part' },
] as const satisfies readonly Choice<Removed>[];

const blank = (mass: string, pressure: string, openLeak: boolean) => ({
  part: '',
  partText: '',
  removes: '',
  squareInches: { text: '', unit: 'in²' },
  openMinutes: { text: '', unit: 'min' },
  openLeak: openLeak ? 'yes' : 'no',
  cylinder: NO_CYLINDER,
  evacuated: '',
  before: { text: '', unit: mass },
  after: { text: '', unit: mass },
  stop: { text: '', unit: pressure },
  minutesBelow: { text: '', unit: 'min' },
  whyLower: '',
  doubts: NO_TICKS,
  happened: NO_TICKS,
});
type RecoveryValues = ReturnType<typeof blank>;

/** What the work opens and takes off, as far as somebody said. */
function workOf(values: RecoveryValues, check: Check): CommandBody<'record-recovery'>['work'] {
  const removes = check.optionalChoice(
    REMOVED.map(({ value }) => value),
    values.removes,
  );
  const openingSquareInches = check.optionalNumber('work.openingSquareInches', 'Opening', values.squareInches.text);
  const openMinutes = check.optionalNumber('work.openMinutes', 'Open for', values.openMinutes.text);
  return {
    ...(removes !== undefined && { removes }),
    ...(openingSquareInches !== undefined && { openingSquareInches }),
    ...(openMinutes !== undefined && { openMinutes }),
  };
}

function useRecovery(known: KnownCylinder | undefined) {
  const { view, glance } = useVisit();
  const { mass, pressure } = useUnits();
  const isOpen = view.leakPoints.some((point) => point.circuitId === glance.circuitId && point.state === 'open');
  return useForm<RecoveryValues, 'record-recovery'>({
    name: 'recovery',
    kind: 'record-recovery',
    // Below the site's own pressure a metric gauge is read in kPa absolute.
    initial: blank(mass, pressure === 'psig' ? 'psig' : 'kpa', isOpen),
    build: (values, check) => {
      if (values.cylinder.id === '') check.fault('cylinderId', 'Cylinder: find it by its serial, or register it here.');
      if (isHeldUp(known, values.happened))
        check.fault('happened', 'Stopped: take another cylinder, or say that it is filled already.');
      const net = netOf(values.before, values.after, 'cylinder');
      if (net.is === 'backwards')
        check.fault('after', 'Gross after: a cylinder that took gas in weighs more than before.');
      const below = isBelowSite(values.stop, view.site.barometerKpa) === true;
      const minutes = below
        ? check.number('minutesBelowSite', 'Minutes below site pressure', values.minutesBelow.text)
        : undefined;
      const [partText, whyLower] = [check.optionalText(values.partText), check.optionalText(values.whyLower)];
      return {
        body: {
          visitId: view.visit.id,
          circuitId: glance.circuitId,
          part: check.choice('part', ['whole', 'isolated'], { label: 'Part', value: values.part }),
          ...(partText !== undefined && { partText }),
          work: workOf(values, check),
          cylinderId: values.cylinder.id,
          cylinderEvacuated:
            check.choice('cylinderEvacuated', ['yes', 'no'], {
              label: 'Cylinder evacuated',
              value: values.evacuated,
            }) === 'yes',
          before: check.mass('before', 'Gross before', values.before),
          after: check.mass('after', 'Gross after', values.after),
          stop: check.pressure('stop', 'Stopped at', values.stop),
          openLeak: values.openLeak === 'yes',
          ...(minutes !== undefined && { minutesBelowSite: minutes }),
          ...(below && whyLower !== undefined && { whyLower }),
          ...doubtsSaid(values.doubts),
        },
        said: `${net.is === 'net' ? net.text : 'Gas'} into ${values.cylinder.text}`,
      };
    },
  });
}

interface FieldsProps {
  readonly form: Form<RecoveryValues>;
}

/** What the law's level depends on; asked before the act. */
function BeforeTheAct({ form }: FieldsProps) {
  return (
    <>
      <Keys {...bind(form, 'part')} label="Taken from" choices={PARTS} />
      {form.values.part === 'isolated' && (
        <Line {...bind(form, 'partText')} label="Which part" hint="As compressors 1 to 3." maxLength={200} optional />
      )}
      <Keys {...bind(form, 'openLeak')} label="A leak is open in what you recover" choices={YES_NO} />
      <Pick
        {...bind(form, 'removes', 'work.removes')}
        label="The work removes"
        choices={REMOVED}
        ask="Nothing"
        optional
      />
      <Figure
        {...bind(form, 'squareInches', 'work.openingSquareInches')}
        label="Opening"
        hint="The largest that the work makes."
        units={[{ value: 'in²', text: 'in²' }]}
        optional
      />
      <Figure {...bind(form, 'openMinutes', 'work.openMinutes')} label="Open for" units={MINUTE_KEYS} optional />
      <EvacuationCard values={form.values} />
    </>
  );
}

function StoppedAt({ form }: FieldsProps) {
  const { view } = useVisit();
  const below = isBelowSite(form.values.stop, view.site.barometerKpa) === true;
  return (
    <>
      <Figure {...bind(form, 'stop')} label="Stopped at" hint="After five minutes of rest." units={LOW_PRESSURE_KEYS} />
      {below && (
        <>
          <Figure
            {...bind(form, 'minutesBelow', 'minutesBelowSite')}
            label="Minutes below site pressure"
            units={MINUTE_KEYS}
          />
          <Line
            {...bind(form, 'whyLower')}
            label="Why lower"
            maxLength={400}
            optional={form.values.openLeak !== 'yes'}
          />
        </>
      )}
    </>
  );
}

export function RecoveryStep() {
  const { glance } = useVisit();
  const [known, setKnown] = useState<KnownCylinder>();
  const form = useRecovery(known);
  const correction = useCorrection();
  return (
    <StepScreen
      step="recovery"
      form={form}
      names={['recovery', 'new-cylinder-recovery', 'correct-']}
      saveText="Save the recovery"
      addText="Another cylinder"
      onCorrect={correction.open}
      before={
        <>
          <Cylinder />
          <ColdBurn />
          <Flammable refrigerant={glance.refrigerant} />
          <Rules />
        </>
      }
      after={correction.form}
    >
      <BeforeTheAct form={form} />
      <CylinderField
        {...bind(form, 'cylinder', 'cylinderId')}
        label="Into cylinder"
        use="recovery"
        onKnown={setKnown}
      />
      <Happened {...bind(form, 'happened')} known={known} text="It is filled already" />
      <Keys
        {...bind(form, 'evacuated', 'cylinderEvacuated')}
        label="The cylinder was evacuated before its first fill"
        choices={YES_NO}
      />
      <Figure {...bind(form, 'before')} label="Gross before" units={MASS_KEYS} />
      <Figure {...bind(form, 'after')} label="Gross after" units={MASS_KEYS} />
      <RecoverySum
        before={form.values.before}
        after={form.values.after}
        grossLimitKg={known?.view.grossLimitKg ?? null}
      />
      <StoppedAt form={form} />
      <SaidDoubts {...bind(form, 'doubts')} />
    </StepScreen>
  );
}
