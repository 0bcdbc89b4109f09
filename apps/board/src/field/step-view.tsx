'use client';
import type { ReactNode } from 'react';
import { ChargeStep } from './steps/charge.tsx';
import { ClosingStep } from './steps/closing.tsx';
import { ConsentStep } from './steps/consent.tsx';
import { DetectorStep } from './steps/detector.tsx';
import { InspectionStep } from './steps/inspection.tsx';
import { LeaksStep } from './steps/leaks.tsx';
import { LeaveStep } from './steps/leave.tsx';
import { LooksStep } from './steps/looks.tsx';
import { ReadingsStep } from './steps/readings.tsx';
import { RecoveryStep } from './steps/recovery.tsx';
import { RepairStep } from './steps/repair.tsx';
import { SafetyStep } from './steps/safety.tsx';
import { StartStep } from './steps/start.tsx';
import { StepList } from './steps/step-list.tsx';
import { TestStep } from './steps/test.tsx';
import { VacuumStep } from './steps/vacuum.tsx';
import type { StepId } from './steps.ts';

const STEP_VIEWS = {
  steps: StepList,
  start: StartStep,
  safety: SafetyStep,
  detector: DetectorStep,
  readings: ReadingsStep,
  looks: LooksStep,
  leaks: LeaksStep,
  consent: ConsentStep,
  recovery: RecoveryStep,
  repair: RepairStep,
  test: TestStep,
  vacuum: VacuumStep,
  charge: ChargeStep,
  inspection: InspectionStep,
  closing: ClosingStep,
  leave: LeaveStep,
} satisfies Record<StepId | 'steps', () => ReactNode>;

export function StepView({ step }: { step: StepId | 'steps' }) {
  const Shown = STEP_VIEWS[step];
  return <Shown />;
}
