import type { Contractor } from '../support/office.ts';
import { onDay } from '../support/day.ts';
import type { StoryIds } from '../support/story.ts';
import type { NightShift } from './night-shift.ts';

interface Repaired {
  readonly shift: NightShift;
  readonly firm: Contractor;
  readonly of: StoryIds;
}
/** The follow-up on the return visit that was proposed for it. */
export async function followUp({ shift, firm, of }: Repaired, day: string, result: 'pass' | 'fail'): Promise<void> {
  const { world } = shift;
  const then = onDay(day);
  world.clock.now = then('08:00');
  const [item] = (await world.office.returns(firm.actors.dispatcher, {})).items;
  const { id: visitId, version } = item!.visit;
  const slot = { personId: of.technician, day, time: '09:00', minutes: 45 };
  await firm.send('dispatcher', 'place-visit', { visitId, version, ...slot });
  world.clock.now = then('09:05');
  await firm.send('technician', 'arrive', { visitId });
  await firm.send('technician', 'record-verification', {
    visitId,
    circuitId: of.circuit,
    stage: 'follow-up',
    leakPointIds: [of.leak],
    method: 'electronic',
    result,
  });
  await firm.send('technician', 'finish-visit', { visitId });
}
