'use client';
import type { GlanceView, MeView, VisitView } from '@ullage/contracts';
import type { MassUnit, PressureUnit, TemperatureUnit } from '@ullage/units';
import { MASS_UNITS, PRESSURE_UNITS, TEMPERATURE_UNITS } from '@ullage/units';
import { createContext, useContext } from 'react';
import type { FieldScreen } from './field-context.tsx';
import type { Step, StepId } from './steps.ts';

/** What every screen of a visit stands on. */
export interface VisitScreen extends FieldScreen {
  readonly view: VisitView;
  /** The circuit that is worked on. */
  readonly glance: GlanceView;
  readonly steps: readonly Step[];
  readonly refresh: () => Promise<void>;
  readonly goTo: (step: StepId | 'steps', circuitId?: string) => void;
}

const Context = createContext<VisitScreen | undefined>(undefined);
export const VisitProvider = Context.Provider;

/** @throws Error outside a visit */
export function useVisit(): VisitScreen {
  const screen = useContext(Context);
  if (!screen) throw new Error('only inside a visit');
  return screen;
}

export interface UsualUnits {
  readonly mass: MassUnit;
  readonly pressure: PressureUnit;
  readonly temperature: TemperatureUnit;
  readonly vacuum: PressureUnit;
}
const known = <T extends string>(list: readonly T[], value: string, fallback: T): T =>
  list.find((one) => one === value) ?? fallback;

/** The units this contractor works in: where a field starts, never what it is bound to. */
export const usualUnits = ({ tenant }: MeView): UsualUnits => ({
  mass: known(MASS_UNITS, tenant.massUnit, 'lb'),
  pressure: known(PRESSURE_UNITS, tenant.pressureUnit, 'psig'),
  temperature: known(TEMPERATURE_UNITS, tenant.temperatureUnit, 'F'),
  vacuum: known(['micron', 'pa'], tenant.vacuumUnit, 'micron'),
});

export const useUnits = (): UsualUnits => usualUnits(useVisit().me);
