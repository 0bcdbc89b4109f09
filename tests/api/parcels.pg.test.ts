/** The file of everything over HTTP: asked for once, told how far it is, downloaded by its owner alone, sent back in parts. */
import { createHash } from 'node:crypto';
import { createNight, createOffice, systemClock } from '@ullage/casework';
import type { World } from '@ullage/casework';
import { PARCEL_PART_BYTES } from '@ullage/contracts';
import { makeCalendar } from '@ullage/units';
import { unzipSync } from 'fflate';
import { Temporal } from 'temporal-polyfill';
import { beforeAll, expect, test } from 'vitest';
import { aFirm, expectOk } from '../support/api-people.ts';
import type { Answer, Firm, Visitor } from '../support/api-people.ts';
import { newId, runApi } from '../support/api-run.ts';

const calendar = makeCalendar(Temporal);
const clock = systemClock(calendar);
let world: World | undefined;
const api = await runApi({
  office: ({ database }) => {
    world = { database, calendar, now: () => clock.now(), newId: () => clock.newId() };
    return createOffice(world);
  },
});
const night = createNight(world!);
/** What the worker does. */
async function work(): Promise<void> {
  const waiting = await api.admin.query<{ tenant_id: string; id: string }>(
    `SELECT tenant_id, id FROM parcel WHERE state = 'waiting'`,
  );
  for (const { tenant_id: tenantId, id } of waiting.rows) await night.workParcel({ tenantId, id }, () => true);
}

let firm: Firm;
let other: Firm;
let file: Buffer;
let exportId: string;
const ASK = '/v1/leaving/exports';
const location = (name: string) => ({ body: { locationId: newId(), kind: 'van', name, elevationM: 12 } });
beforeAll(async () => {
  firm = await aFirm(api);
  other = await aFirm(api);
  await expectOk(firm.of.owner.post('/v1/commands/register-location', location('Van 3')));
});
const listOf = async (who: Visitor) =>
  (await expectOk(who.get('/v1/leaving'))).json() as {
    isFresh: boolean;
    takeOver: { state: string; found: unknown[] } | null;
    exports: { id: string; state: string; hash: string }[];
  };

test('asked for once it is made once, and it is the owner’s alone to have', async () => {
  const { owner, manager, auditor } = firm.of;
  const key = newId();
  const first = (await expectOk(owner.post(ASK, {}, { key }))).json();
  expect((await expectOk(owner.post(ASK, {}, { key }))).json()).toEqual(first);
  exportId = String(first['id']);
  const second = await owner.post(ASK, {});
  expect([second.status, second.json()['detail']]).toEqual([422, 'A file is being made already; wait for it.']);
  expect((await owner.get(`${ASK}/${exportId}/file`)).status).toBe(404);
  await work();
  const [made] = (await listOf(auditor)).exports;
  expect(made).toMatchObject({ id: exportId, state: 'done' });
  const got = await expectOk(owner.get(`${ASK}/${exportId}/file`));
  expect(got.headers['content-type']).toBe('application/zip');
  expect(got.headers['cache-control']).toBe('private, no-store');
  expect(got.headers['content-length']).toBe(String(got.bytes.length));
  expect(got.headers['content-disposition']).toMatch(/^attachment; filename="ullage-\d{4}-\d\d-\d\d\.zip"$/);
  file = got.bytes;
  expect(createHash('sha256').update(file).digest('hex')).toBe(made!.hash);
  expect(Object.keys(unzipSync(file))).toContain('history.jsonl');
  for (const who of [manager, auditor]) expect((await who.get(`${ASK}/${exportId}/file`)).status).toBe(403);
  // Of another contractor it is as if there were none, to the byte.
  const theirs = await other.of.owner.get(`${ASK}/${exportId}/file`);
  const none = await other.of.owner.get(`${ASK}/${newId()}/file`);
  expect([theirs.status, theirs.text.replaceAll(exportId, '')]).toEqual([
    404,
    none.text.replaceAll(/[0-9a-f-]{36}/g, ''),
  ]);
});

const BYTES = { key: false as const, headers: { 'content-type': 'application/octet-stream' } };
test('sent back in parts it is taken over, and both have the same', async () => {
  const { owner } = other.of;
  const mark = createHash('sha256').update(file).digest('hex');
  const named = (await expectOk(owner.post('/v1/leaving/take-overs', { bytes: file.length, mark }))).json();
  const at = `/v1/leaving/take-overs/${String(named['id'])}`;
  const put = (number: number, more: object): Promise<Answer> =>
    owner.ask('PUT', `${at}/parts/${number}`, { ...BYTES, ...more });
  expect((await owner.ask('PUT', `${at}/parts/0`, { body: {}, key: false })).json()['detail']).toBe(
    'Part: send its bytes as application/octet-stream.',
  );
  expect((await put(0, { bytes: Buffer.from('x') })).status).toBe(400);
  expect((await put(-1, { bytes: Buffer.from('x') })).status).toBe(400);
  const early = await owner.post(`${at}/begin`, {});
  expect([early.status, early.json()['detail']]).toEqual([422, 'File: is not here whole; send what is missing.']);
  for (const number of named['missing'] as number[])
    await expectOk(put(number, { bytes: file.subarray(number * PARCEL_PART_BYTES, (number + 1) * PARCEL_PART_BYTES) }));
  expect((await firm.of.owner.post(`${at}/begin`, {})).status).toBe(404);
  await expectOk(owner.post(`${at}/begin`, {}));
  const blocked = await owner.post('/v1/commands/register-location', location('Van 4'));
  expect([blocked.status, blocked.json()['detail']]).toEqual([
    422,
    'A file is being taken over; wait until that has ended.',
  ]);
  await work();
  expect(await listOf(owner)).toMatchObject({ isFresh: false, takeOver: { state: 'done', found: [] } });
  const names = async (who: Visitor) => (await expectOk(who.get('/v1/locations'))).json()['items'];
  expect(await names(owner)).toEqual(await names(firm.of.owner));
  const again = await owner.post('/v1/leaving/take-overs', { bytes: file.length, mark });
  expect([again.status, again.json()['detail']]).toEqual([
    422,
    'There is work here already: take the file over in a new firm.',
  ]);
});

test.each([
  [{ bytes: 0, mark: 'f'.repeat(64) }, 400],
  [{ bytes: 1.5, mark: 'f'.repeat(64) }, 400],
  [{ bytes: 10, mark: 'F' }, 400],
  [{ bytes: 10 }, 400],
  [{ bytes: 10, mark: 'f'.repeat(64), more: 1 }, 400],
  [{ bytes: 2_000_000_001, mark: 'f'.repeat(64) }, 413],
])('%j is refused with %d', async (body, status) => {
  expect((await other.of.owner.post('/v1/leaving/take-overs', body)).status).toBe(status);
});
