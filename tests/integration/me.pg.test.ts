import { expect, test } from 'vitest';
import { onDay } from '../support/day.ts';
import { newId, openTestOffice } from '../support/office.ts';

test('who asks is answered with their person, certificates in order, and how their contractor shows figures', async () => {
  const world = await openTestOffice(onDay('2026-04-30')('17:00'));
  const firm = await world.contractor('Tarn & Bracken Cooling');
  const { actors } = firm;
  const before = await world.office.me(actors.technician);
  expect(before).toMatchObject({
    user: { id: actors.technician.userId, name: 'technician of Tarn & Bracken Cooling' },
    role: 'technician',
    person: { name: 'technician of Tarn & Bracken Cooling', certificates: [] },
    tenant: {
      id: firm.tenantId,
      name: 'Tarn & Bracken Cooling',
      timeZone: 'America/Denver',
      massUnit: 'lb',
      demo: false,
    },
    now: onDay('2026-04-30')('17:00'),
  });
  expect(before.permissions).toContain('visit.record');
  const [first, second] = [newId(), newId()];
  await firm.send('manager', 'register-person', {
    personId: before.person.id,
    name: 'Rosa Quill',
    certificates: [
      { id: second, scheme: 'us-608', type: 'I' },
      { id: first, scheme: 'us-608', type: 'II', registeredOn: '2025-06-01', endsOn: '2027-06-01' },
    ],
  });
  expect((await world.office.me(actors.technician)).person).toMatchObject({
    name: 'Rosa Quill',
    certificates: [
      { id: first, type: 'II', registeredOn: '2025-06-01', endsOn: '2027-06-01' },
      { id: second, type: 'I', registeredOn: null, endsOn: null },
    ],
  });
  // Somebody of another contractor is nobody here.
  const other = await world.contractor('Heron Cold Works');
  await expect(world.office.me({ ...other.actors.owner, tenantId: firm.tenantId })).rejects.toMatchObject({
    code: 'not-found',
  });
  await expect(world.office.me({ ...actors.owner, tenantId: crypto.randomUUID() })).rejects.toMatchObject({
    code: 'not-allowed',
  });
});
