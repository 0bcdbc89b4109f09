import type { SumInput } from '@ullage/contracts';
import { evacuationLevel } from '@ullage/rulebook';
import { recoveryAdvice } from '@ullage/thermo';

/** Where to stop: the level of the law is taken as given, or worked out by the rulebook from what it depends on. */
export function recoveryAdviceSum({ law, lawStopKpa, openLeak, ...asked }: SumInput<'recovery-advice'>) {
  const { refrigerant, barometerKpa } = asked;
  const level = law && evacuationLevel({ ...law, refrigerant, barometerKpa });
  const advice = recoveryAdvice({
    ...asked,
    lawStopKpa: level ? level.levelKpa : (lawStopKpa ?? null),
    openLeak: openLeak ?? (law?.leakingPart === true && law.isolatable === false),
  });
  if (!advice.ok) return advice;
  return { ...advice, clause: level?.clause ?? null, reasons: [...(level?.reasons ?? []), ...advice.reasons] };
}
