import { createHash, randomBytes } from 'node:crypto';
import { createOffice } from '@ullage/casework';
import { PHOTO_MAX_BYTES, PHOTO_PART_BYTES } from '@ullage/contracts';
import { makeCalendar } from '@ullage/units';
import sharp from 'sharp';
import { Temporal } from 'temporal-polyfill';
import { beforeAll, expect, test } from 'vitest';
import { aFirm, expectOk } from '../support/api-people.ts';
import type { Answer, Firm, Visitor } from '../support/api-people.ts';
import { newId, runApi } from '../support/api-run.ts';

const calendar = makeCalendar(Temporal);
const api = await runApi({
  office: ({ database, clock }) =>
    createOffice({ database, calendar, now: () => clock.now(), newId: () => clock.newId() }),
});
const hashOf = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');
/** Noise does not compress: a picture of several parts. */
const noise = (width: number, height: number, quality = 90): Promise<Buffer> =>
  sharp(randomBytes(width * height * 3), { raw: { width, height, channels: 3 } })
    .jpeg({ quality })
    .toBuffer();

const name = (who: Visitor, bytes: Buffer, said = bytes.length): Promise<Answer> =>
  who.ask('PUT', `/v1/photos/${hashOf(bytes)}`, { body: { bytes: said }, key: false });
const partOf = (bytes: Buffer, number: number): Buffer =>
  bytes.subarray(number * PHOTO_PART_BYTES, (number + 1) * PHOTO_PART_BYTES);
const send = (who: Visitor, hash: string, number: number, content: Buffer): Promise<Answer> =>
  who.ask('PUT', `/v1/photos/${hash}/parts/${number}`, {
    bytes: content,
    key: false,
    headers: { 'content-type': 'application/octet-stream' },
  });
const count = (bytes: Buffer): number => Math.ceil(bytes.length / PHOTO_PART_BYTES);
async function sendAll(who: Visitor, bytes: Buffer): Promise<Answer> {
  await expectOk(name(who, bytes));
  let last: Answer | undefined;
  for (let number = 0; number < count(bytes); number++) {
    last = await expectOk(send(who, hashOf(bytes), number, partOf(bytes, number)));
  }
  if (!last) throw new Error('an empty photo');
  return last;
}

const ids = { unit: newId(), circuit: newId(), visit: newId(), leak: newId() };
let firm: Firm;
let other: Firm;
beforeAll(async () => {
  firm = await aFirm(api);
  other = await aFirm(api);
  const lb = (value: string) => ({ value, unit: 'lb' });
  const call = {
    customer: { id: newId(), new: { name: 'Larkspur Foods' } },
    site: { id: newId(), new: { address: '4 Aspen Way', timeZone: 'America/Denver', elevationM: 1600 } },
    unit: { id: ids.unit, new: { tag: '0417' } },
    circuit: {
      id: ids.circuit,
      new: {
        refrigerant: 'R-448A',
        use: 'commercial-refrigeration',
        fullCharge: { mass: lb('220'), method: 'manufacturer' },
      },
    },
    history: [],
    visit: { id: ids.visit, symptom: 'Short of gas' },
  };
  await expectOk(firm.of.dispatcher.post('/v1/commands/take-call', { body: call }));
});

test('a photo arrives in parts, out of order and twice, and is shown as it was taken and small', async () => {
  const { technician, auditor } = firm.of;
  const bytes = await noise(1200, 900);
  expect(count(bytes)).toBeGreaterThan(2);
  const numbers = Array.from({ length: count(bytes) }, (_, number) => number);
  const hash = hashOf(bytes);
  expect((await expectOk(name(technician, bytes))).json()).toEqual({
    hash,
    state: 'arriving',
    partBytes: PHOTO_PART_BYTES,
    missing: numbers,
  });
  expect((await auditor.get(`/v1/photos/${hash}`)).status).toBe(404);
  for (const number of numbers.slice(1).reverse())
    await expectOk(send(technician, hash, number, partOf(bytes, number)));
  await expectOk(send(technician, hash, 1, partOf(bytes, 1)));
  // The phone was off meanwhile: it asks what is missing.
  expect((await expectOk(name(technician, bytes))).json()).toMatchObject({ state: 'arriving', missing: [0] });
  const done = await expectOk(send(technician, hash, 0, partOf(bytes, 0)));
  expect(done.json()).toMatchObject({ state: 'complete', missing: [] });
  const whole = await expectOk(auditor.get(`/v1/photos/${hash}`));
  expect(hashOf(whole.bytes)).toBe(hash);
  expect(whole.headers).toMatchObject({
    'content-type': 'image/jpeg',
    'x-content-type-options': 'nosniff',
    'cache-control': 'private, max-age=31536000, immutable',
  });
  const small = await expectOk(auditor.get(`/v1/photos/${hash}/small`));
  expect(await sharp(small.bytes).metadata()).toMatchObject({ format: 'webp', width: 320, height: 240 });
});

test('of twenty senders of the last part all are told that it is complete', async () => {
  const { technician } = firm.of;
  const bytes = await noise(300, 200);
  await expectOk(name(technician, bytes));
  const answers = await Promise.all(Array.from({ length: 20 }, () => send(technician, hashOf(bytes), 0, bytes)));
  expect(answers.map(({ status, text }) => `${status} ${String(JSON.parse(text).state)}`)).toEqual(
    Array.from({ length: 20 }, () => '200 complete'),
  );
  const audited = await api.admin.query(`SELECT count(*)::int AS n FROM blob WHERE hash = $1 AND state = 'complete'`, [
    hashOf(bytes),
  ]);
  expect(audited.rows[0].n).toBe(1);
});

test('a fact may name a photo that is still on the phone; when it arrives, the feed tells', async () => {
  const { technician, dispatcher } = firm.of;
  const bytes = await noise(400, 300);
  const look = {
    visitId: ids.visit,
    circuitId: ids.circuit,
    places: ['flare-nut'],
    method: 'soap',
    unitState: 'off',
    result: 'found',
    photos: [hashOf(bytes)],
  };
  await expectOk(technician.post('/v1/commands/record-look', { body: look }));
  const photosOf = async (): Promise<unknown> => {
    const { facts } = (await expectOk(dispatcher.get(`/v1/visits/${ids.visit}`))).json() as {
      facts: { kind: string; photos: unknown }[];
    };
    return facts.find(({ kind }) => kind === 'look')?.photos;
  };
  expect(await photosOf()).toEqual([{ hash: hashOf(bytes), state: 'awaited', width: null, height: null }]);
  const feed = async (): Promise<number> =>
    Number((await expectOk(dispatcher.get(`/v1/visits/${ids.visit}`))).json()['number']);
  const before = await feed();
  await sendAll(technician, bytes);
  expect(await photosOf()).toEqual([{ hash: hashOf(bytes), state: 'complete', width: 400, height: 300 }]);
  expect(await feed()).toBeGreaterThan(before);
});

test('a picture lying on its side is shown upright', async () => {
  const bytes = await sharp(await noise(200, 100))
    .withMetadata({ orientation: 6 })
    .jpeg()
    .toBuffer();
  await sendAll(firm.of.technician, bytes);
  const small = await expectOk(firm.of.owner.get(`/v1/photos/${hashOf(bytes)}/small`));
  expect(await sharp(small.bytes).metadata()).toMatchObject({ width: 100, height: 200 });
});

test.each([
  ['a page', Buffer.from('<html><script>alert(1)</script></html>')],
  ['a drawing that can hold a script', Buffer.from('<svg xmlns="http://www.w3.org/2000/svg"><script/></svg>')],
  ['a picture’s first bytes and nothing after', Buffer.from([0xff, 0xd8, 0xff, 0xe0, 1, 2, 3])],
])('%s is refused by its bytes, and may be taken again', async (_, bytes) => {
  const { technician } = firm.of;
  await expectOk(name(technician, bytes));
  const refused = await send(technician, hashOf(bytes), 0, bytes);
  expect(refused.status).toBe(422);
  expect(refused.json()).toMatchObject({ detail: 'Photo: is no JPEG, PNG or WebP picture; take it again.' });
  expect((await technician.get(`/v1/photos/${hashOf(bytes)}`)).status).toBe(404);
  expect((await expectOk(name(technician, bytes))).json()).toMatchObject({ state: 'arriving', missing: [0] });
});

test('bytes that are not those that were named are asked for again', async () => {
  const { technician } = firm.of;
  const [wanted, damaged] = [await noise(200, 150), Buffer.alloc(0)];
  await expectOk(name(technician, wanted));
  const broken = Buffer.concat([wanted.subarray(0, -1), Buffer.from([0]), damaged]);
  const refused = await send(technician, hashOf(wanted), 0, broken);
  expect([refused.status, refused.json()['detail']]).toEqual([422, 'Photo: arrived damaged; send it again.']);
  expect((await sendAll(technician, wanted)).json()).toMatchObject({ state: 'complete' });
});

test('what is too large, of another size or no hash is refused with what would be right', async () => {
  const { technician } = firm.of;
  const bytes = await noise(100, 100);
  const large = await name(technician, bytes, PHOTO_MAX_BYTES + 1);
  expect([large.status, large.json()['detail']]).toEqual([
    413,
    'Photo: larger than 20 MB; take it at a lower resolution.',
  ]);
  await expectOk(name(technician, bytes));
  expect((await name(technician, bytes, bytes.length + 1)).status).toBe(422);
  expect((await send(technician, hashOf(bytes), 0, bytes.subarray(1))).status).toBe(400);
  expect((await send(technician, hashOf(bytes), 7, bytes)).status).toBe(400);
  expect((await send(technician, hashOf(Buffer.from('unnamed')), 0, bytes)).status).toBe(404);
  const named = await technician.ask('PUT', '/v1/photos/nothing', { body: { bytes: 1 }, key: false });
  expect([named.status, named.json()['errors']]).toEqual([
    400,
    [{ pointer: '#/hash', detail: 'Photo: take it again.' }],
  ]);
  const elsewhere = await technician.post('/v1/commands/arrive', undefined, {
    bytes,
    headers: { 'content-type': 'application/octet-stream' },
  });
  expect(elsewhere.status).toBe(415);
});

test('the same bytes at another contractor are that contractor’s own photo', async () => {
  const bytes = await noise(120, 90);
  await sendAll(firm.of.technician, bytes);
  const [theirs, unknown] = [
    await other.of.owner.get(`/v1/photos/${hashOf(bytes)}`),
    await other.of.owner.get(`/v1/photos/${hashOf(Buffer.from('never taken'))}`),
  ];
  expect([theirs.status, theirs.text]).toEqual([404, unknown.text]);
  expect((await expectOk(name(other.of.technician, bytes))).json()).toMatchObject({ state: 'arriving', missing: [0] });
});

test('a complete photo is never changed, not even by the application’s own login', async () => {
  const bytes = await noise(140, 90);
  await sendAll(firm.of.technician, bytes);
  const change = (statement: string): Promise<unknown> => api.admin.query(statement, [hashOf(bytes)]);
  await expect(change(`UPDATE blob SET thumbnail = NULL WHERE hash = $1`)).rejects.toThrow('never changed');
  await expect(change(`DELETE FROM blob_chunk WHERE hash = $1`)).rejects.toThrow('never changed');
  await expect(
    change(`INSERT INTO blob_chunk SELECT tenant_id, hash, 9, '\\x00' FROM blob WHERE hash = $1`),
  ).rejects.toThrow('never changed');
});
