/** The stories of the demo besides the repaired rack. */
import { CIRCUITS } from './things.ts';
import { lb } from './entered.ts';
import type { Things } from './stock.ts';
import { takeCall } from './teller.ts';
import type { Teller } from './teller.ts';

/** An owner who wants to wait: gas was added, nobody searched, and the law's clock has run out. */
export async function missedClock(tell: Teller, of: Things & { technicianId: string }): Promise<void> {
  const { newId } = tell.stage;
  tell.go(-41, '10:00');
  const on = await takeCall(tell, CIRCUITS.coldRoom, [
    { id: newId(), onDay: tell.day(-150), mass: lb('3'), by: 'other' },
  ]);
  await tell.place(on.visitId, { personId: of.technicianId, offset: -40, time: '09:00', minutes: 120 });
  tell.go(-40, '09:10');
  await tell.say('technician', 'arrive', { visitId: on.visitId });
  await tell.say('technician', 'record-look', {
    ...on,
    places: ['evaporator-return-bend'],
    method: 'electronic',
    instrumentId: of.detector,
    unitState: 'off',
    result: 'could-not-reach',
    why: 'Ice on the coil',
  });
  await tell.say('technician', 'record-consent', {
    ...on,
    options: [{ what: 'Thaw and search' }, { what: 'Add gas for now' }],
    decision: 'top-off',
    by: 'Bertil Amsel',
  });
  tell.go(-40, '10:20');
  await tell.say('technician', 'record-charge', {
    ...on,
    cylinderId: of.newGas404,
    before: lb('52.10'),
    after: lb('44.85'),
    full: 'yes',
  });
  await tell.say('technician', 'record-owner-told', {
    ...on,
    who: 'Bertil Amsel',
    what: 'Over the threshold: inspection and repair within 30 days.',
  });
  await tell.say('technician', 'finish-visit', {
    visitId: on.visitId,
    summary: 'Owner wants to wait with the search.',
  });
}

/** A chiller in order, two visits for today, and a call that nobody has been given. */
export async function quietOnes(tell: Teller, of: { technicianId: string }): Promise<void> {
  const { newId } = tell.stage;
  tell.go(-30, '15:00');
  const chiller = await takeCall(tell, CIRCUITS.chiller, [
    { id: newId(), onDay: tell.day(-240), mass: lb('2.5'), by: 'us' },
  ]);
  tell.go(-1, '16:00');
  await tell.place(chiller.visitId, { personId: of.technicianId, offset: 0, time: '13:30', minutes: 120 });
  await takeCall(tell, CIRCUITS.dairy, [{ id: newId(), onDay: tell.day(-75), mass: lb('18'), by: 'other' }]).then(
    (on) => tell.place(on.visitId, { personId: of.technicianId, offset: 0, time: '08:30', minutes: 240 }),
  );
  await takeCall(tell, CIRCUITS.iceRoom, []);
}
