'use client';
import { BranchCard } from '../parts/branch-card.tsx';
import { Electricity, Flammable } from '../parts/cautions.tsx';
import { ReadingsFields, useReadings } from '../parts/readings-fields.tsx';
import { StepScreen } from '../parts/step-screen.tsx';
import { useVisit } from '../visit-context.tsx';

/** Before anything is opened: what the pressure says about the charge decides how the search goes on. */
export function ReadingsStep() {
  const { glance, view } = useVisit();
  const form = useReadings('first');
  return (
    <StepScreen
      step="readings"
      form={form}
      saveText="Save the readings"
      addText="Read again"
      before={
        <>
          <Electricity />
          <Flammable refrigerant={glance.refrigerant} />
        </>
      }
      after={view.branch && <BranchCard branch={view.branch} />}
    >
      <ReadingsFields form={form} stage="first" />
    </StepScreen>
  );
}
