import { createOffice } from '@ullage/casework';
import { IMPORT_MAX_BYTES } from '@ullage/contracts';
import { makeCalendar } from '@ullage/units';
import { Temporal } from 'temporal-polyfill';
import { beforeAll, expect, test } from 'vitest';
import { aFirm } from '../support/api-people.ts';
import type { Answer, Firm, Visitor } from '../support/api-people.ts';
import { newId, runApi } from '../support/api-run.ts';

const calendar = makeCalendar(Temporal);
const api = await runApi({
  office: ({ database, clock }) =>
    createOffice({ database, calendar, now: () => clock.now(), newId: () => clock.newId() }),
});
let firm: Firm;
let other: Firm;
beforeAll(async () => {
  firm = await aFirm(api);
  other = await aFirm(api);
});

const FILE = Buffer.from('Customer\nLarkspur Foods\n');
const put = (who: Visitor, id: string, content: Buffer, query = 'kind=equipment&name=units.csv'): Promise<Answer> =>
  who.ask('PUT', `/v1/imports/${id}?${query}`, {
    bytes: content,
    key: false,
    headers: { 'content-type': 'application/octet-stream' },
  });

test('a file is taken once under its id; the same again is the same, another is refused', async () => {
  const { owner, manager, auditor } = firm.of;
  const id = newId();
  const first = await put(owner, id, FILE);
  expect([first.status, first.json()]).toMatchObject([
    200,
    { id, state: 'reading', fileName: 'units.csv', fileBytes: FILE.length },
  ]);
  expect((await put(manager, id, FILE)).status).toBe(200);
  const another = await put(manager, id, Buffer.from('Customer\nHarbour\n'));
  expect([another.status, another.json().type]).toEqual([409, '/problems/command-changed']);
  const listed = (await auditor.get('/v1/imports')).json() as unknown as { items: { id: string }[] };
  expect(listed.items.map((item) => item.id)).toEqual([id]);
  expect((await auditor.get(`/v1/imports/${id}/rows`)).json()).toEqual({ items: [], next: null });
});

test('an id of another contractor answers as none, and may be used for a file of one’s own', async () => {
  const id = newId();
  await put(firm.of.owner, id, FILE);
  for (const path of [`/v1/imports/${id}`, `/v1/imports/${id}/rows`]) {
    const theirs = await other.of.owner.get(path);
    const nobodys = await other.of.owner.get(path.replace(id, newId()));
    expect([theirs.status, theirs.text]).toEqual([404, nobodys.text]);
  }
  for (const act of ['run', 'undo']) {
    const theirs = await other.of.owner.post(`/v1/imports/${id}/${act}`, {});
    expect([theirs.status, theirs.text]).toEqual([
      404,
      (await other.of.owner.post(`/v1/imports/${newId()}/${act}`, {})).text,
    ]);
  }
  expect((await put(other.of.owner, id, Buffer.from('Customer\nHarbour\n'))).status).toBe(200);
});

test('what cannot be taken says why: too large, empty, no kind, no bytes, a step out of turn', async () => {
  const { owner } = firm.of;
  const large = await put(owner, newId(), Buffer.alloc(IMPORT_MAX_BYTES + 1, 'a'));
  expect([large.status, large.json().type]).toEqual([413, '/problems/too-large']);
  const empty = await put(owner, newId(), Buffer.alloc(0));
  expect([empty.status, empty.json().detail]).toEqual([
    400,
    'The file is empty: choose one with a line of headings and rows below it.',
  ]);
  const kind = await put(owner, newId(), FILE, 'kind=poems&name=x');
  expect([kind.status, kind.json().errors]).toMatchObject([400, [{ detail: 'Kind: say what the file holds.' }]]);
  const json = await owner.ask('PUT', `/v1/imports/${newId()}?kind=equipment&name=x`, { body: {}, key: false });
  expect([json.status, json.json().detail]).toEqual([400, 'File: send its bytes as application/octet-stream.']);
  const id = newId();
  await put(owner, id, FILE);
  const early = await owner.post(`/v1/imports/${id}/run`, {});
  expect([early.status, early.json().detail]).toEqual([409, 'The import has gone on since; look at it again.']);
});

test('bytes are taken on their own routes alone, and more than a megabyte only as a file', async () => {
  const { owner, technician } = firm.of;
  const headers = { 'content-type': 'application/octet-stream' };
  const elsewhere = await owner.ask('POST', '/v1/people/invitations', { bytes: FILE, headers });
  expect(elsewhere.status).toBe(415);
  const part = await technician.ask('PUT', `/v1/photos/${'a'.repeat(64)}/parts/0`, {
    bytes: Buffer.alloc(2 << 20),
    key: false,
    headers,
  });
  expect(part.status).toBe(413);
});
