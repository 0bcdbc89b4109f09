/** A contractor for whom the story has been told to its end, with a visit on site and one yet to be placed. */
import { onDay } from './day.ts';
import { carriedOut } from './imports.ts';
import { newId } from './office.ts';
import type { Contractor, TestOffice } from './office.ts';
import type { Scene } from './bodies.ts';
import { cylinders, ids, run, theCall, visitSteps } from './story.ts';

export async function told(world: TestOffice, name?: string): Promise<{ firm: Contractor; scene: Scene }> {
  const today = onDay('2026-04-30');
  world.clock.now = today('17:00');
  const firm = await world.contractor(name);
  const of = ids();
  const send = firm.send;
  await send('dispatcher', 'take-call', theCall(of, { first: '2025-12-01', second: '2026-02-14' }), {
    at: today('07:30'),
  });
  const certificates = (type: 'II' | 'apprentice') => [
    { id: newId(), scheme: 'us-608' as const, type, registeredOn: '2025-06-01' },
  ];
  await send('manager', 'register-person', {
    personId: of.technician,
    name: 'Rosa Quill',
    certificates: certificates('II'),
  });
  await send('manager', 'register-person', {
    personId: of.apprentice,
    name: 'Teo Finch',
    certificates: certificates('apprentice'),
  });
  await send('warehouse', 'register-cylinder', cylinders(of).newGas, { at: today('07:40') });
  await place(world, firm, { visitId: of.visit, personId: of.technician, time: '18:00' });
  await run(firm, visitSteps(of, today));
  const [onSite, proposed, scale, location] = [newId(), newId(), newId(), newId()] as const;
  const [certificate, idle, left] = [newId(), newId(), newId()] as const;
  for (const [personId, name, id] of [
    [idle, 'Ada Moss', certificate],
    [left, 'Tam Wray', newId()],
  ] as const) {
    const one = { id, scheme: 'us-608' as const, type: 'I' as const, registeredOn: '2025-06-01' };
    await send('manager', 'register-person', { personId, name, certificates: [one] });
  }
  await send('manager', 'deactivate-person', { personId: left });
  await send('warehouse', 'register-instrument', { instrumentId: scale, kind: 'scale', tag: 'S-3' });
  await send('warehouse', 'register-location', {
    locationId: location,
    kind: 'warehouse',
    name: 'Yard',
    elevationM: 1600,
  });
  await send('warehouse', 'hand-over', {
    cylinders: [{ cylinderId: of.recovery, fromId: null }],
    toId: location,
  });
  for (const id of [onSite, proposed]) {
    await send('dispatcher', 'take-call', {
      customer: { id: of.customer },
      site: { id: of.site },
      unit: { id: of.unit },
      circuit: { id: of.circuit },
      history: [],
      visit: { id },
    });
  }
  await place(world, firm, { visitId: onSite, personId: of.technician, time: '20:00' });
  await send('technician', 'arrive', { visitId: onSite });
  const { id: importId } = await carriedOut(world, firm, 'Customer\nCopperfold Bakery\n');
  world.clock.now = today('17:00');
  return {
    firm,
    scene: {
      ...{ of, onSite, proposed, scale, location, certificate, idle, left, importId },
      attention: await refused(world, firm),
      notice: await reminded(world, firm),
    },
  };
}

async function place(
  world: TestOffice,
  firm: Contractor,
  { visitId, personId, time }: { visitId: string; personId: string; time: string },
): Promise<void> {
  const { version } = (await world.office.visit(firm.actors.owner, visitId)).visit;
  await firm.send('dispatcher', 'place-visit', {
    visitId,
    version,
    personId,
    day: '2026-04-30',
    time,
    minutes: 60,
    override: { 'outside-working-day': 'told after the fact', 'double-booked': 'told after the fact' },
  });
}

/** A device's command that cannot be applied: gives the attention item. */
async function refused(world: TestOffice, firm: Contractor): Promise<string> {
  const device = newId();
  const id = newId();
  const command = {
    id,
    schema: 'record-safety',
    device,
    deviceSeq: 1,
    happenedAt: world.clock.now,
    dependsOn: [],
    body: { visitId: newId(), checks: [], notDone: [] },
  };
  await world.office.push(firm.actors.technician, { sentAt: world.clock.now, device, commands: [command] });
  const { items } = await world.office.attention(firm.actors.owner);
  const item = items.find((row) => row.commandId === id);
  if (!item) throw new Error('the refused command is not kept');
  return item.id;
}

/** A reminder to the owner, written as the night's work writes it: gives the notice. */
async function reminded(world: TestOffice, { tenantId }: Contractor): Promise<string> {
  const id = newId();
  await world.sql(
    `INSERT INTO notice (tenant_id, id, role, kind, duty_id, body, at)
     SELECT tenant_id, $2, 'owner', 'reminder', id, '{"stage":7}', $3 FROM duty WHERE tenant_id = $1 ORDER BY id LIMIT 1`,
    [tenantId, id, world.clock.now],
  );
  return id;
}
