import 'fake-indexeddb/auto';
import { Envelope, PHOTO_PART_BYTES, Problem, Push } from '@ullage/contracts';
import type { CommandAnswer, PullAnswer } from '@ullage/contracts';
import { beforeEach, describe, expect, test } from 'vitest';
import {
  claim,
  dismiss,
  handOver,
  keepPhoto,
  NotTaken,
  putRight,
  record,
  SignedOut,
  sync,
  unsent,
  withdraw,
} from './index.ts';
import type { Batch, Entry, KeptRecord, LocalChange, Office, Photo, Round, Store } from './index.ts';
import { openIndexedDb } from './indexed-db.ts';

const NOW = '2026-05-04T14:00:00.000Z';
const [ada, bo] = [
  { tenantId: 'tarn', userId: 'ada' },
  { tenantId: 'tarn', userId: 'bo' },
];
const idOf = (n: number): string => `019dbd74-2a00-7000-8000-${String(n).padStart(12, '0')}`;
const problem = (detail: string): Problem => ({ type: '/problems/not-possible', title: 'No', status: 422, detail });
const answer = (id: string, outcome: CommandAnswer['outcome'], why?: string): CommandAnswer => ({
  id,
  outcome,
  records: [],
  asks: [],
  ...(why === undefined ? {} : { problem: problem(why) }),
});

let store: Store;
let disks = 0;
let made: number;
let pushed: Batch[];
/** What the office does with a batch, and how a command stands that is asked about. */
let take: (batch: Batch) => CommandAnswer[];
let page: Partial<PullAnswer>;
let visits: Record<string, unknown>;
let photoOffice: Pick<Office, 'namePhoto' | 'sendPart'>;
beforeEach(async () => {
  store = await openIndexedDb(`sync-${(disks += 1)}`);
  made = 100;
  pushed = [];
  take = ({ commands }) => commands.map(({ id }) => answer(id, 'applied'));
  page = {};
  visits = {};
  const none = (): never => {
    throw new Error('no photos');
  };
  photoOffice = { namePhoto: none, sendPart: none };
  await claim(store, ada, () => idOf(1));
});
const newId = (): string => idOf((made += 1));
const deciding = () => ({ store, newId, now: () => NOW });
const office = (): Office => ({
  push: async (batch) => {
    pushed.push(batch);
    return { answers: take(batch), epoch: page.epoch ?? 1, number: 1 };
  },
  pull: async () => ({
    ...{ epoch: 1, number: 1, now: NOW, more: false, scope: [], changed: [], standing: [] },
    ...page,
  }),
  readVisit: async (id) => visits[id],
  ...photoOffice,
});
const round = (who = ada, over: Partial<Office> = {}): Promise<Round> =>
  sync({ store, office: { ...office(), ...over }, now: () => NOW, alone: (work) => work() }, who);
const note = (n: number, more: { dependsOn?: string[]; about?: string[]; local?: Record<string, unknown> } = {}) =>
  record(store, { id: idOf(n), schema: 'record-safety', happenedAt: NOW, body: { n }, said: `note ${n}`, ...more });
const outbox = () => store.read((tx) => tx.list<Entry>('outbox'));
const states = async () => (await outbox()).map(({ said, state }) => `${said}: ${state}`);
const refuse = (...ids: number[]) =>
  (take = ({ commands }) =>
    commands.map(({ id }) =>
      ids.map(idOf).includes(id) ? answer(id, 'needs-attention', 'no') : answer(id, 'applied'),
    ));

describe('what goes over the wire', () => {
  test('is the frozen envelope, in the office’s own schema, and the same bytes when it is sent again', async () => {
    await note(2, { dependsOn: [idOf(9)] });
    take = () => [];
    await round();
    await round();
    const sent = {
      id: idOf(2),
      schema: 'record-safety',
      device: idOf(1),
      deviceSeq: 1,
      happenedAt: NOW,
      dependsOn: [idOf(9)],
      body: { n: 2 },
    };
    for (const batch of pushed) {
      expect(JSON.stringify(batch)).toBe(JSON.stringify({ sentAt: NOW, device: idOf(1), commands: [sent] }));
      expect(Push.parse(batch)).toEqual(batch);
      expect(Envelope.parse(batch.commands[0])).toEqual(sent);
    }
    expect(pushed.length).toBeGreaterThan(1);
  });

  test('a batch that is not taken as a whole is halved, and only the one to blame stays, with its reason', async () => {
    for (const n of [2, 3, 4, 5]) await note(n);
    const push: Office['push'] = async (batch) => {
      if (batch.commands.some(({ id }) => id === idOf(4))) throw new NotTaken(problem('too large'));
      return office().push(batch);
    };
    expect(await round(ada, { push })).toEqual({ is: 'done' });
    expect(await outbox()).toMatchObject([
      { said: 'note 4', state: 'refused', onlyHere: true, problem: { detail: 'too large' } },
    ]);
  });
});

describe('a session', () => {
  test('that ended keeps the outbox; it goes out after a sign-in as the same person, and never as another', async () => {
    await note(2);
    const push = (): never => {
      throw new SignedOut();
    };
    expect(await round(ada, { push })).toEqual({ is: 'signed-out' });
    expect(await round(bo)).toEqual({ is: 'not-yours' });
    expect(await claim(store, bo, newId)).toBe(false);
    expect(pushed).toEqual([]);
    expect((await unsent(store)).commands).toHaveLength(1);
    expect(await round(ada)).toEqual({ is: 'done' });
    expect(pushed.flatMap(({ commands }) => commands)).toHaveLength(1);
    expect(await outbox()).toEqual([]);
  });
});

describe('a refused command', () => {
  test('stays with its reason and stops nothing after it', async () => {
    for (const n of [2, 3, 4]) await note(n);
    refuse(3);
    await round();
    expect(await outbox()).toMatchObject([{ said: 'note 3', state: 'refused', problem: { detail: 'no' } }]);
  });

  test('is put right under a new id with all that hung on it, each only after the old one is taken back', async () => {
    await note(2);
    await note(3, { dependsOn: [idOf(2)] });
    take = () => [answer(idOf(2), 'needs-attention', 'no'), answer(idOf(3), 'waiting')];
    await round();
    expect(await states()).toEqual(['note 2: refused', 'note 3: held']);
    const right = await putRight(deciding(), idOf(2), { body: { right: true } });
    const [, , back2, new2, back3, new3] = await outbox();
    expect(back2).toMatchObject({
      withdraws: idOf(2),
      envelope: { schema: 'withdraw-command', body: { commandId: idOf(2) } },
    });
    expect(new2).toEqual(right);
    expect(new2?.envelope).toMatchObject({ body: { right: true }, dependsOn: [back2?.envelope.id] });
    expect(new3?.envelope).toMatchObject({ body: { n: 3 }, dependsOn: [new2?.envelope.id, back3?.envelope.id] });
    take = ({ commands }) => commands.map(({ id }) => answer(id, 'applied'));
    await round();
    expect(await outbox()).toEqual([]);
  });

  test('that was done meanwhile cannot be taken back: that is said, and what was to take its place is held', async () => {
    await note(2);
    refuse(2);
    await round();
    const right = await putRight(deciding(), idOf(2), { body: {} });
    page = { standing: [{ id: idOf(2), state: 'applied' }] };
    take = ({ commands }) =>
      commands.map(({ id }) =>
        answer(id, id === right?.envelope.id ? 'waiting' : 'needs-attention', 'applied already'),
      );
    await round();
    expect(await states()).toEqual(['Withdrawn: note 2: refused', 'note 2: held']);
  });

  test('that could not be taken back and was not done lies with the person again', async () => {
    await note(2);
    refuse(2);
    await round();
    await withdraw(deciding(), idOf(2));
    const [, back] = await outbox();
    take = ({ commands }) => commands.map(({ id }) => answer(id, 'needs-attention', 'in the future'));
    await round();
    expect(await dismiss(store, back!.envelope.id)).toBe(true);
    expect(await states()).toEqual(['note 2: refused']);
  });

  test('handed over stays in sight until the office has decided, and goes when that has been seen', async () => {
    await note(2);
    refuse(2);
    await round();
    expect(await handOver(store, idOf(2))).toBe(true);
    expect(await states()).toEqual(['note 2: handed-over']);
    page = { standing: [{ id: idOf(2), state: 'left-out' }] };
    await round();
    expect(await states()).toEqual(['note 2: left-out']);
    expect(await dismiss(store, idOf(2))).toBe(true);
    expect(await outbox()).toEqual([]);
  });

  test('whose head nobody could read lies only here: it is not handed over, and withdrawn without a word', async () => {
    await note(2);
    take = () => [answer('', 'needs-attention', 'unreadable')];
    await round();
    expect(await handOver(store, idOf(2))).toBe(false);
    await withdraw(deciding(), idOf(2));
    expect(await outbox()).toEqual([]);
  });
});

describe('records', () => {
  test('come and go with the scope; one about which something is unsent stays until that has gone', async () => {
    visits = { a: { name: 'a' }, b: { name: 'b' } };
    page = { scope: ['a', 'b'] };
    await round();
    await note(2, { about: ['a'], local: { a: 'safe' } });
    page = { scope: [], number: 2 };
    take = () => [];
    await round();
    const here = () => store.read((tx) => tx.list<KeptRecord>('record'));
    expect(await here()).toMatchObject([{ id: 'a', left: true }]);
    expect(await store.read((tx) => tx.list<LocalChange>('local'))).toMatchObject([{ key: 'a', value: 'safe' }]);
    refuse();
    await round();
    expect(await here()).toEqual([]);
    expect(await store.read((tx) => tx.list('local'))).toEqual([]);
  });

  test('a clock that is off is told by the office, and both times stay', async () => {
    await note(2);
    take = ({ commands }) => commands.map(({ id }) => ({ ...answer(id, 'applied'), clockSkewSeconds: -86_400 }));
    await round();
    expect(await store.read((tx) => tx.list<Entry>('sent'))).toMatchObject([
      { skewSeconds: -86_400, envelope: { happenedAt: NOW } },
    ]);
  });

  test('what was settled is said again after a restore, and forgotten after thirty days by the office’s clock', async () => {
    await note(2);
    await round();
    page = { epoch: 2 };
    await round();
    expect(pushed.map(({ commands }) => commands.map(({ id }) => id))).toEqual([[idOf(2)], [idOf(2)]]);
    page = { epoch: 2, now: '2026-06-02T14:00:00.000Z' };
    await round();
    expect(await store.read((tx) => tx.list('sent'))).toHaveLength(1);
    page = { epoch: 2, now: '2026-06-03T14:00:00.001Z' };
    await round();
    expect(await store.read((tx) => tx.list('sent'))).toEqual([]);
  });
});

describe('photos', () => {
  const keep = (hash: string, size: number) => keepPhoto(store, { hash, bytes: new Uint8Array(size).fill(7) });
  const photos = () => store.read((tx) => tx.list<Photo>('photo'));

  test('go on with the parts that are missing after a lost line, and stop for none that is refused', async () => {
    const here = new Set<number>();
    const parts: string[] = [];
    const arrival = (hash: string) => {
      const missing = [0, 1, 2].filter((number) => !here.has(number));
      return {
        hash,
        state: missing.length === 0 ? ('complete' as const) : ('arriving' as const),
        partBytes: PHOTO_PART_BYTES,
        missing,
      };
    };
    let lines = 1;
    photoOffice = {
      namePhoto: async (hash) => {
        if (hash === 'a') throw new NotTaken(problem('no picture'));
        return arrival(hash);
      },
      sendPart: async (hash, number, content) => {
        if (here.size === 1 && lines-- > 0) throw new Error('lost');
        here.add(number);
        parts.push(`${number}: ${content.length}`);
        return arrival(hash);
      },
    };
    await keep('a', 10);
    await keep('b', 2 * PHOTO_PART_BYTES + 5);
    expect(await round()).toMatchObject({ is: 'broke-off' });
    expect(await unsent(store)).toMatchObject({ photos: 1 });
    expect(await round()).toEqual({ is: 'done' });
    expect(parts).toEqual([`0: ${PHOTO_PART_BYTES}`, `1: ${PHOTO_PART_BYTES}`, '2: 5']);
    expect(await photos()).toMatchObject([
      { hash: 'a', state: 'refused', problem: { detail: 'no picture' } },
      { hash: 'b', state: 'sent' },
    ]);
    // The same bytes again are the same photo; a restored office is told of it anew.
    await keep('b', 10);
    page = { epoch: 2 };
    await round();
    expect((await photos())[1]).toMatchObject({ state: 'sent', bytes: { length: 2 * PHOTO_PART_BYTES + 5 } });
  });
});
