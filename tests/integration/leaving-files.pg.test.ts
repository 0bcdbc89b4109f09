/** Files that are not as they were exported: told by file and line, and nothing of them applied. */
import { PARCEL_PART_BYTES } from '@ullage/contracts';
import { strFromU8, strToU8, unzipSync, zipSync } from 'fflate';
import { createHash } from 'node:crypto';
import { beforeAll, expect, test } from 'vitest';
import { DEMO_ZONE, seedDemo } from '../../prisma/seed/demo.ts';
import { aNight } from '../support/everything.ts';
import { exported, lastTakeOver, nightOf, sent, takenOver } from '../support/leaving.ts';
import { calendar, newId, openTestOffice } from '../support/office.ts';
import type { Contractor } from '../support/office.ts';
import { told } from '../support/told.ts';

const world = await openTestOffice('2026-04-30T23:00:00.000Z');
const { office } = world;
const night = nightOf(world);

let firm: Contractor;
let fresh: Contractor;
let file: Buffer;
beforeAll(async () => {
  ({ firm } = await told(world));
  file = await exported(world, night, firm.actors.owner);
  fresh = await world.contractor('Quarry Cold');
});

type Files = Record<string, Uint8Array>;
interface Manifest {
  format: number;
  counts: { history: number };
  files: { name: string; bytes: number; sha256: string }[];
  settings: Record<string, unknown>;
}
const sha256 = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');
/** RFC 8785, as far as plain values go: keys in order, no space. */
const ordered = (_: string, value: unknown): unknown =>
  typeof value === 'object' && value !== null && !Array.isArray(value)
    ? Object.fromEntries(Object.entries(value).sort(([a], [b]) => (a < b ? -1 : 1)))
    : value;
const hashOf = (envelope: unknown): string => sha256(strToU8(JSON.stringify(envelope, ordered)));
const manifestIn = (files: Files): Manifest => JSON.parse(strFromU8(files['manifest.json']!)) as Manifest;

/** The file with something changed; `sealed` puts the sums in the manifest right, as whoever forges one would. */
function changed(change: (files: Files, manifest: Manifest) => void, sealed = true): Uint8Array {
  const files: Files = { ...unzipSync(file) };
  const manifest = manifestIn(files);
  const whole = files['manifest.json'];
  change(files, manifest);
  if (sealed)
    manifest.files = manifest.files
      .filter(({ name }) => files[name])
      .map(({ name }) => ({ name, bytes: files[name]!.length, sha256: sha256(files[name]!) }));
  if (files['manifest.json'] === whole) files['manifest.json'] = strToU8(JSON.stringify(manifest));
  return zipSync(files, { level: 6 });
}
const lines = (files: Files, name: string): string[] => strFromU8(files[name]!).split('\n').slice(0, -1);
function setLine(files: Files, at: { name: string; line: number }, change: (line: string) => string): void {
  const all = lines(files, at.name);
  all[at.line - 1] = change(all[at.line - 1]!);
  files[at.name] = strToU8(`${all.join('\n')}\n`);
}
const bomb = (): Uint8Array => new Uint8Array(48 * 1024 * 1024);
/** A field of the central directory's entry of a file, in place. */
function patched(name: string, offset: number, value: number): Uint8Array {
  const bytes = Buffer.from(file);
  const at = bytes.lastIndexOf(Buffer.from(name)) - 46;
  bytes.writeUInt32LE(value, at + offset);
  return bytes;
}

const BAD: readonly (readonly [what: string, make: () => Uint8Array, where: string, detail: RegExp])[] = [
  ['no zip', () => strToU8('tag,refrigerant\r\n'), 'The file', /no whole zip/],
  ['cut off in the middle', () => file.subarray(0, file.length / 2), 'The file', /cut off/],
  ['cut off by one byte', () => file.subarray(0, -1), 'The file', /cut off/],
  ['without a manifest', () => changed((files) => delete files['manifest.json']), 'manifest.json', /missing/],
  [
    'a manifest that is none',
    () => changed((_, manifest) => Object.assign(manifest, { counts: 1 })),
    'manifest.json',
    /counts/,
  ],
  [
    'of another format',
    () => changed((_, manifest) => (manifest.format = 2)),
    'manifest.json',
    /Format 2: this version reads format 1/,
  ],
  [
    'a zone that is none',
    () => changed((_, { settings }) => (settings['timeZone'] = 'Mars/Olympus')),
    'manifest.json',
    /timeZone/,
  ],
  [
    'a unit that is none',
    () => changed((_, { settings }) => (settings['massUnit'] = 'stone')),
    'manifest.json',
    /massUnit/,
  ],
  [
    'changed after it was sealed',
    () =>
      changed((files) => setLine(files, { name: 'history.jsonl', line: 2 }, (line) => line.replace('a', 'b')), false),
    'history.jsonl',
    /Was changed/,
  ],
  [
    'a table that was changed',
    () => changed((files) => (files['tables/units.csv'] = strToU8('x')), false),
    'tables/units.csv',
    /changed/,
  ],
  ['without its history', () => changed((files) => delete files['history.jsonl']), 'history.jsonl', /missing/],
  [
    'a file that does not belong',
    () => changed((files) => (files['virus.exe'] = strToU8('MZ'))),
    'virus.exe',
    /not belong/,
  ],
  [
    'a name that climbs out',
    () =>
      changed((files, manifest) => {
        files['../../etc/passwd'] = strToU8('root');
        manifest.files.push({ name: '../../etc/passwd', bytes: 4, sha256: '' });
      }),
    '../../etc/passwd',
    /not belong/,
  ],
  [
    'line 20 that is no JSON',
    () => changed((files) => setLine(files, { name: 'history.jsonl', line: 20 }, () => '{"what":')),
    'history.jsonl, line 20',
    /no JSON/,
  ],
  [
    'line 20 that is no such line',
    () =>
      changed((files) =>
        setLine(files, { name: 'history.jsonl', line: 20 }, (line) => line.replace('"hash" :', '"rash" :')),
      ),
    'history.jsonl, line 20',
    /./,
  ],
  [
    'a command nobody knows',
    () =>
      changed((files) =>
        setLine(files, { name: 'history.jsonl', line: 20 }, (line) =>
          line.replace(/"kind" : "[a-z-]+"/, '"kind" : "grant-everything"'),
        ),
      ),
    'history.jsonl, line 20',
    /no such command/,
  ],
  [
    'a command of nobody',
    () =>
      changed((files) =>
        setLine(files, { name: 'history.jsonl', line: 20 }, (line) =>
          line.replace(/"userId" : "[0-9a-f-]+"/, `"userId" : "${newId()}"`),
        ),
      ),
    'history.jsonl, line 20',
    /nobody/,
  ],
  [
    'a command that was rewritten',
    () =>
      changed((files) =>
        setLine(files, { name: 'history.jsonl', line: 20 }, (line) =>
          line.replace(/"hash" : "[0-9a-f]{8}/, '"hash" : "00000000'),
        ),
      ),
    'history.jsonl, line 20',
    /changed since it came/,
  ],
  [
    'a line too few',
    () =>
      changed(
        (files) => (files['history.jsonl'] = strToU8(`${lines(files, 'history.jsonl').slice(0, -1).join('\n')}\n`)),
      ),
    'history.jsonl',
    /not as many/,
  ],
  [
    'a line that never ends',
    () => changed((files) => (files['history.jsonl'] = new Uint8Array(3 * 1024 * 1024).fill(97))),
    'history.jsonl',
    /more than 2 MB/,
  ],
  [
    'somebody twice',
    () => changed((files) => setLine(files, { name: 'people.jsonl', line: 2 }, () => lines(files, 'people.jsonl')[0]!)),
    'people.jsonl, line 2',
    /twice/,
  ],
  [
    'a manifest that unfolds without end',
    () => changed((files) => (files['manifest.json'] = bomb()), false),
    'manifest.json',
    /larger|JSON/,
  ],
  ['a size that is a lie', () => patched('README.txt', 24, 10), 'README.txt', /longer or shorter/],
  ['more than may be unfolded', () => patched('README.txt', 24, 0xffffffff), 'The file', /more than 4 GB/],
  ['encrypted', () => patched('README.txt', 8, 9 | (8 << 16)), 'README.txt', /encrypted/],
  ['packed otherwise', () => patched('README.txt', 8, 8 | (93 << 16)), 'README.txt', /packed/],
];

test.each(BAD)('%s', async (_, make, where, detail) => {
  const taken = await takenOver(world, night, { owner: fresh.actors.owner, file: make() });
  expect(taken).toMatchObject({
    state: 'refused',
    found: [{ where, detail: expect.stringMatching(detail) as string }],
  });
  // Nothing of it is here, and another one may be tried.
  const [here] = await world.sql<{ people: string; commands: string; blocked: boolean }>(
    `SELECT (SELECT count(*) FROM person p WHERE p.tenant_id = t.id) AS people,
      (SELECT count(*) FROM command c WHERE c.tenant_id = t.id) AS commands, taking_over AS blocked FROM tenant t WHERE id = $1`,
    [fresh.tenantId],
  );
  expect(here).toEqual({ people: '6', commands: '0', blocked: false });
  expect((await office.leaving(fresh.actors.owner)).isFresh).toBe(true);
});

test('a zip that unfolds a thousandfold is broken off where its line is too long', async () => {
  const made = changed((files) => (files['history.jsonl'] = bomb()));
  expect(made.length).toBeLessThan(400_000);
  const taken = await takenOver(world, night, { owner: fresh.actors.owner, file: made });
  expect(taken).toMatchObject({ state: 'refused', found: [{ where: 'history.jsonl' }] });
});

test('while it is sent: too large, of the wrong size, not whole, another’s', async () => {
  const { owner } = fresh.actors;
  const named = { bytes: 2_000_000_001, mark: sha256(file) };
  expect(() => office.nameTakeOver(owner, named)).toThrow(/larger than 2 GB/);
  const { id, missing } = await office.nameTakeOver(owner, { bytes: PARCEL_PART_BYTES + 1, mark: sha256(file) });
  expect(missing).toEqual([0, 1]);
  const part = (number: number, bytes: number) =>
    office.receiveParcelPart(owner, { id, number, content: new Uint8Array(bytes) });
  await expect(part(1, 2)).rejects.toThrow(/wrong size/);
  await part(1, 1);
  await part(1, 1);
  await expect(office.beginTakeOver(owner, id)).rejects.toThrow(/not here whole/);
  const again = await office.nameTakeOver(owner, { bytes: PARCEL_PART_BYTES + 1, mark: sha256(file) });
  expect(again).toEqual({ id, partBytes: PARCEL_PART_BYTES, missing: [0] });
  const stranger = firm.actors.owner;
  for (const act of [
    () => office.receiveParcelPart(stranger, { id, number: 0, content: new Uint8Array(PARCEL_PART_BYTES) }),
    () => office.beginTakeOver(stranger, id),
    () => office.exportFile(stranger, id),
    () => office.exportFile(owner, id),
    () => office.beginTakeOver(owner, newId()),
  ])
    await expect(act()).rejects.toMatchObject({ code: 'not-found', message: 'There is nothing here under that id.' });
});

test('where there is work already a file is refused, and the work stays', async () => {
  const { owner } = firm.actors;
  await expect(sent(world, owner, file)).rejects.toThrow(/work here already/);
  await expect(lastTakeOver(world, owner)).rejects.toThrow();
});

test('two at once: one', async () => {
  const other = await world.contractor('Quarry Cold');
  const { owner } = other.actors;
  const id = await sent(world, owner, file);
  const begun = await Promise.allSettled([office.beginTakeOver(owner, id), office.beginTakeOver(owner, id)]);
  expect(begun.map(({ status }) => status).sort()).toEqual(['fulfilled', 'rejected']);
  // A second file is neither named nor begun meanwhile; nobody else writes.
  const send = () =>
    other.send('warehouse', 'register-location', { locationId: newId(), kind: 'van', name: 'Van', elevationM: 1 });
  await expect(send()).rejects.toThrow(/being taken over/);
  const ref = { tenantId: other.tenantId, id };
  const worked = await Promise.all([night.workParcel(ref, () => true), night.workParcel(ref, () => true)]);
  expect(worked.sort()).toEqual(['done', 'nothing']);
  expect(await lastTakeOver(world, owner)).toMatchObject({ state: 'done', found: [] });
  await send();
  await expect(sent(world, owner, file)).rejects.toThrow(/work here already/);
});

test('a log from before ids followed from their commands is told with ids of its own, found by what names them', async () => {
  const made = changed((files) => {
    // What commands made of themselves there, under ids of chance.
    const others = new Map<string, string>();
    for (const text of lines(files, 'history.jsonl')) {
      const { answer, envelope } = JSON.parse(text) as {
        answer?: { records?: { kind: string; id: string }[] };
        envelope: unknown;
      };
      const sent = JSON.stringify(envelope ?? null);
      for (const { kind, id } of answer?.records ?? [])
        if (['duty', 'visit', 'calculation'].includes(kind) && !others.has(id) && !sent.includes(id))
          others.set(id, newId());
    }
    expect(others.size).toBeGreaterThan(3);
    for (const name of ['history.jsonl', 'books.jsonl'])
      files[name] = strToU8(
        lines(files, name)
          .map(
            (text) =>
              JSON.parse([...others].reduce((all, [from, to]) => all.replaceAll(from, to), text)) as Record<
                string,
                unknown
              >,
          )
          .map((line) => ('hash' in line ? { ...line, hash: hashOf(line['envelope']) } : line))
          .map((line) => `${JSON.stringify(line)}\n`)
          .join(''),
      );
  });
  const other = await world.contractor('Quarry Cold');
  const taken = await takenOver(world, night, { owner: other.actors.owner, file: made });
  expect(taken).toMatchObject({ state: 'done', found: [] });
});

test('the demo, whose stories were told out of the order of their dates', async () => {
  const demo = await world.contractor('Heron Vale Refrigeration');
  const { now } = world.clock;
  const setClock = (at: string) => void (world.clock.now = at);
  const today = calendar.dayOf(now, DEMO_ZONE);
  await seedDemo({ office, calendar, actors: demo.actors, today, newId, setClock, step: () => undefined });
  setClock(now);
  await aNight(world, demo, night);
  const made = await exported(world, night, demo.actors.owner);
  const other = await world.contractor('Heron Vale Refrigeration');
  const taken = await takenOver(world, night, { owner: other.actors.owner, file: made });
  expect(taken).toMatchObject({ state: 'done', found: [], from: { name: 'Heron Vale Refrigeration' } });
  const totals = async (of: Contractor) => (await office.books(of.actors.auditor)).totals;
  expect(await totals(other)).toEqual(await totals(demo));
});
