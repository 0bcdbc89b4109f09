'use client';
import { bind } from '../parts/bind.ts';
import { Flammable, Nitrogen, Rules, Torch } from '../parts/cautions.tsx';
import { Area, Keys, Line } from '../parts/fields.tsx';
import { LeakTicks, useLeakChoices } from '../parts/leak-ticks.tsx';
import { StepScreen } from '../parts/step-screen.tsx';
import { useForm } from '../use-form.ts';
import { useVisit } from '../visit-context.tsx';
import { listOf, textOf, YES_NO } from '../words.ts';

function useRepair() {
  const { view, glance } = useVisit();
  const leaks = useLeakChoices(['open', 'deferred', 'declined']);
  const [only, second] = useLeakChoices(['open']);
  return useForm({
    name: 'repair',
    kind: 'record-repair' as const,
    // One open leak is the usual case: it is ticked already.
    initial: {
      leaks: (only && !second ? [only.value] : []) as readonly string[],
      what: '',
      part: '',
      opened: '',
      drier: '',
      flow: '',
    },
    build: (values, check) => {
      const part = check.optionalText(values.part);
      const leakPointIds = check.some('leakPointIds', 'Leaks repaired', values.leaks);
      return {
        body: {
          visitId: view.visit.id,
          circuitId: glance.circuitId,
          leakPointIds,
          what: check.text('what', 'What was done', values.what),
          ...(part !== undefined && { part }),
          opened: check.choice('opened', ['yes', 'no'], { label: 'Opened', value: values.opened }) === 'yes',
          drierChanged: check.choice('drierChanged', ['yes', 'no'], { label: 'Drier', value: values.drier }) === 'yes',
          ...(values.flow !== '' && { nitrogenFlowed: values.flow === 'yes' }),
        },
        said: `Repaired: ${listOf(leakPointIds.map((id) => textOf(leaks, id)))}`,
      };
    },
  });
}

export function RepairStep() {
  const { glance } = useVisit();
  const form = useRepair();
  return (
    <StepScreen
      step="repair"
      form={form}
      saveText="Save the repair"
      addText="Another repair"
      before={
        <>
          <Torch />
          <Nitrogen />
          <Flammable refrigerant={glance.refrigerant} />
          <Rules />
        </>
      }
    >
      <LeakTicks
        {...bind(form, 'leaks', 'leakPointIds')}
        label="Leaks repaired"
        states={['open', 'deferred', 'declined']}
      />
      <Area {...bind(form, 'what')} label="What was done" hint="As: new flare, torqued; oil on the back only." />
      <Line {...bind(form, 'part')} label="Part fitted" maxLength={200} optional />
      <Keys
        {...bind(form, 'opened')}
        label="The circuit or its part was opened"
        choices={YES_NO}
        hint="Then it is evacuated after."
      />
      <Keys {...bind(form, 'drier', 'drierChanged')} label="Drier changed" choices={YES_NO} />
      <Keys {...bind(form, 'flow', 'nitrogenFlowed')} label="Nitrogen flowed while brazing" choices={YES_NO} optional />
    </StepScreen>
  );
}
