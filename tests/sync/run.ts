/** One run: three devices, two people, an office, and everything that goes wrong between them, by one seed. */
import {
  claim,
  dismiss,
  handOver,
  isRefusal,
  putRight,
  record,
  sync,
  withDependents,
  withdraw,
} from '@ullage/fieldstore';
import type { Entry, KeptRecord, LocalChange, Round } from '@ullage/fieldstore';
import { uuidv7 } from '@ullage/units';
import { chanceOf } from './chance.ts';
import type { Chance } from './chance.ts';
import { Crash, Disk } from './disk.ts';
import { Line } from './line.ts';
import type { FarEnd } from './line.ts';

const DAY_MS = 86_400_000;
export const PEOPLE = ['ada', 'bo'] as const;

/** What the simulation does to the office besides talking to it over the line. */
export interface Desk extends FarEnd {
  place(visitId: string, people: readonly string[]): void | Promise<void>;
  /** Command ids that lie with a person at the office. */
  attention(): readonly string[] | Promise<readonly string[]>;
  tryAgain(commandId: string): void | Promise<void>;
  leaveOut(commandId: string): void | Promise<void>;
  backup?(): void;
  restore?(): void;
  applied(): readonly string[] | Promise<readonly string[]>;
  /** Grams taken from each cylinder. */
  books(): Record<string, number> | Promise<Record<string, number>>;
  scopeOf(person: string): readonly string[] | Promise<readonly string[]>;
}
export interface Ground {
  readonly visits: readonly string[];
  /** One cylinder for each visit, and what a charge on it names besides. */
  readonly cylinders: readonly string[];
  readonly circuits: readonly string[];
}
export interface Clock {
  /** The office's, in ms. */
  now: number;
}

/** Something a person wanted booked: one command after another may stand for it, and at most one may be done. */
interface Wish {
  readonly cylinderId: string;
  /** `gone`: taken back or left out, as its person was told. */
  readonly commands: { readonly id: string; readonly grams: number; gone: boolean }[];
}
interface Device {
  readonly name: string;
  readonly person: string;
  readonly disk: Disk;
  /** How far its clock is off, in ms. */
  off: number;
  session: string | undefined;
  turn: Promise<unknown>;
}
export interface Told {
  readonly wishes: number;
  readonly refusals: number;
  readonly restores: number;
  readonly crashes: number;
}
export class Broken extends Error {}
const insist = (holds: boolean, what: string): void => {
  if (!holds) throw new Broken(what);
};

export interface RunOptions {
  readonly seed: number;
  readonly ground: Ground;
  readonly desk: Desk;
  readonly clock: Clock;
  readonly steps: number;
  /** Commands one device records in a week without a line. */
  readonly weekOffline?: number;
}

export async function run(options: RunOptions): Promise<Told> {
  return new Run(options).all();
}
/** Ids that come again with their seed. */
export const idsOf = (seed: number) => {
  let made = 0;
  return (): string => {
    made += 1;
    const bytes = new Uint8Array(10);
    new DataView(bytes.buffer).setUint32(0, seed);
    new DataView(bytes.buffer).setUint32(6, made);
    return uuidv7(1_777_000_000_000 + made, bytes);
  };
};

class Run {
  readonly #options: RunOptions;
  readonly #chance: Chance;
  readonly #line: Line;
  readonly #newId: () => string;
  readonly #devices: Device[];
  readonly #wishes = new Map<string, Wish>();
  /** Words that took something back, refused, and seen. */
  readonly #dismissed = new Set<string>();
  #backedUp = false;
  #refusals = 0;
  #restores = 0;
  #crashes = 0;

  constructor(options: RunOptions) {
    this.#options = options;
    this.#chance = chanceOf(options.seed);
    this.#line = new Line(options.desk, this.#chance);
    this.#newId = idsOf(options.seed);
    this.#devices = [
      ['first', 'ada'],
      ['second', 'bo'],
      ['third', 'ada'],
    ].map(([name, person]) => ({
      name: name!,
      person: person!,
      disk: new Disk(),
      off: 0,
      session: person!,
      turn: Promise.resolve(),
    }));
  }

  async all(): Promise<Told> {
    const { desk, ground, steps, weekOffline = 0 } = this.#options;
    for (const visitId of ground.visits) await desk.place(visitId, this.#somePeople());
    for (const device of this.#devices) {
      await claim(device.disk, ownerOf(device.person), this.#newId);
      device.disk.crash = () => {
        if (!this.#line.bad || !this.#chance.once(60)) return undefined;
        this.#crashes += 1;
        return this.#chance.of(['before', 'after'] as const);
      };
    }
    if (weekOffline > 0) await this.#week(weekOffline);
    for (let step = 0; step < steps; step += 1) await this.#step();
    await this.#calm();
    await this.#check();
    return { wishes: this.#wishes.size, refusals: this.#refusals, restores: this.#restores, crashes: this.#crashes };
  }

  #somePeople(): string[] {
    return PEOPLE.filter(() => !this.#chance.once(3));
  }
  #timeOf({ off }: Device): string {
    return new Date(this.#options.clock.now + off).toISOString();
  }

  async #step(): Promise<void> {
    this.#options.clock.now += this.#chance.upTo(40) * 60_000;
    const device = this.#chance.of(this.#devices);
    await this.#chance.of(this.#happenings)(device);
  }

  /** What may happen next, the more likely more often. */
  readonly #happenings: readonly ((device: Device) => unknown)[] = [
    () => this.#options.desk.place(this.#chance.of(this.#options.ground.visits), this.#somePeople()),
    (device) => (device.off = this.#chance.of([0, 0, DAY_MS, -DAY_MS, 30_000])),
    (device) => (device.session = this.#chance.of([undefined, ...PEOPLE])),
    () => this.#line.deliverOne(),
    () => this.#restore(),
    (device) => this.#decide(device),
    () => this.#tryOneAgain(),
    (device) => this.#wish(device),
    (device) => this.#wish(device),
    (device) => this.#wish(device),
    // Two tabs of one device, and somebody who goes on writing meanwhile.
    (device) => Promise.all([this.#sync(device), this.#sync(device), this.#wish(device)]),
    () => Promise.all(this.#devices.map((one) => this.#sync(one))),
    (device) => this.#sync(device),
    (device) => this.#sync(device),
    (device) => this.#sync(device),
    (device) => this.#sync(device),
  ];

  async #tryOneAgain(): Promise<void> {
    const open = await this.#options.desk.attention();
    if (open.length > 0) await this.#options.desk.tryAgain(this.#chance.of(open));
  }

  #restore(): void {
    const { desk } = this.#options;
    if (!desk.backup || !desk.restore) return;
    if (!this.#backedUp || this.#chance.once(2)) desk.backup();
    else {
      desk.restore();
      this.#restores += 1;
    }
    this.#backedUp = true;
  }

  async #week(count: number): Promise<void> {
    const [device] = this.#devices;
    for (let at = 0; at < count; at += 1) {
      this.#options.clock.now += Math.floor((7 * DAY_MS) / count);
      await this.#wish(device!);
    }
  }

  /** A charge or a note, at times one that cannot be booked, at times one that needs the one before it. */
  async #wish(device: Device): Promise<void> {
    const { ground } = this.#options;
    const place = this.#chance.upTo(ground.visits.length);
    const grams = 1 + this.#chance.upTo(9);
    const [id, second] = [this.#newId(), this.#newId()];
    const good = this.#charge(place, grams);
    const flaw = this.#chance.upTo(12);
    const body = flaw === 0 ? { ...good, visitId: '' } : flaw === 1 ? { ...good, visitId: this.#newId() } : good;
    const schema = flaw === 2 ? 'from-a-newer-app' : flaw === 3 ? 'NOT A HEAD' : 'record-charge';
    const about = [ground.visits[place]!];
    const made = { happenedAt: this.#timeOf(device), about, said: `${grams} g` };
    this.#wishes.set(id, { cylinderId: good.cylinderId, commands: [{ id, grams, gone: false }] });
    // A press that failed is pressed again: the form still has its id.
    await this.#untilKept(() =>
      record(device.disk, { ...made, id, schema, body, local: { [about[0]!]: `${grams} g` } }),
    );
    if (!this.#chance.once(4)) return;
    this.#wishes.set(second, { cylinderId: good.cylinderId, commands: [{ id: second, grams, gone: false }] });
    await this.#untilKept(() =>
      record(device.disk, { ...made, id: second, schema: 'record-charge', body: good, dependsOn: [id] }),
    );
  }
  #charge(place: number, grams: number) {
    const { visits, circuits, cylinders } = this.#options.ground;
    const weight = (value: number) => ({ value: String(value), unit: 'g' });
    return {
      visitId: visits[place]!,
      circuitId: circuits[place]!,
      cylinderId: cylinders[place]!,
      before: weight(40_000),
      after: weight(40_000 - grams),
      full: 'no',
    };
  }
  async #untilKept<T>(press: () => Promise<T>): Promise<T> {
    for (;;) {
      try {
        return await press();
      } catch (fault) {
        if (!(fault instanceof Crash)) throw fault;
      }
    }
  }

  async #sync(device: Device): Promise<Round> {
    const { disk, person } = device;
    const round = await sync(
      {
        store: disk,
        office: this.#line.officeOf(() => device.session),
        now: () => this.#timeOf(device),
        alone: (work) => {
          const mine = device.turn.then(work);
          device.turn = mine.catch(() => undefined);
          return mine as never;
        },
      },
      ownerOf(device.session ?? person),
    );
    const expected = ['done', 'signed-out', 'not-yours'].includes(round.is);
    const fault = round.is === 'broke-off' ? round.fault : undefined;
    if (!expected && !(fault instanceof Crash) && (fault as Error).constructor.name !== 'Lost') throw fault;
    return round;
  }

  /** Somebody looks at what was refused and does something about it. */
  async #decide(device: Device): Promise<void> {
    const { disk } = device;
    const entries = await disk.read((tx) => tx.list<Entry>('outbox'));
    const open = entries.filter((entry) => isRefusal(entry));
    const stuck = entries.filter(({ state, withdraws }) => state === 'held' && withdraws === undefined);
    const entry = open[0] ?? (this.#line.bad ? undefined : stuck[0]);
    if (!entry) return;
    this.#refusals += 1;
    const { id } = entry.envelope;
    const wish = this.#wishOf(id);
    if (entry.withdraws !== undefined) {
      // It was done after all: what was to take its place has to go.
      await this.#untilKept(() => dismiss(disk, id));
      this.#setGone(entry.withdraws, false);
      this.#dismissed.add(id);
      return;
    }
    if (!wish) throw new Broken(`nobody asked for ${id}`);
    if (entry.state === 'left-out') {
      this.#setGone(id, true);
      await this.#untilKept(() => dismiss(disk, id));
      return;
    }
    const choice = this.#chance.upTo(this.#line.bad ? 4 : 2);
    if (choice === 0 || entry.state === 'held') {
      await this.#withdraw(device, id);
    } else if (choice === 1) await this.#putRight(device, entry);
    else if (choice === 2) await this.#untilKept(() => handOver(disk, id));
  }
  #setGone(id: string, gone: boolean): void {
    this.#wishOf(id)!.commands.find((one) => one.id === id)!.gone = gone;
  }
  async #withdraw(device: Device, id: string): Promise<void> {
    const { disk } = device;
    const all = await withDependents(disk, id);
    const deciding = { store: disk, newId: this.#newId, now: () => this.#timeOf(device) };
    await this.#untilKept(() => withdraw(deciding, id));
    for (const { envelope } of all) this.#setGone(envelope.id, true);
  }

  async #putRight(device: Device, entry: Entry): Promise<void> {
    const { disk } = device;
    const place = this.#options.ground.cylinders.indexOf(this.#wishOf(entry.envelope.id)!.cylinderId);
    const grams = 1 + this.#chance.upTo(9);
    const deciding = { store: disk, newId: this.#newId, now: () => this.#timeOf(device) };
    const right = {
      body: this.#charge(place, grams),
      happenedAt: new Date(this.#options.clock.now - 1_000).toISOString(),
    };
    const before = new Set((await disk.read((tx) => tx.list<Entry>('outbox'))).map(({ envelope }) => envelope.id));
    const bad = entry.envelope.schema !== 'record-charge';
    if (bad) {
      await this.#withdraw(device, entry.envelope.id);
      return;
    }
    const replaced = await withDependents(disk, entry.envelope.id);
    await this.#untilKept(() => putRight(deciding, entry.envelope.id, right));
    const now = await disk.read((tx) => tx.list<Entry>('outbox'));
    const fresh = now.filter(({ envelope, withdraws }) => !before.has(envelope.id) && withdraws === undefined);
    for (const [at, made] of fresh.entries()) {
      const old = replaced[at]!.envelope.id;
      this.#setGone(old, true);
      const body = made.envelope.body as { before: { value: string }; after: { value: string } };
      this.#wishOf(old)!.commands.push({
        id: made.envelope.id,
        gone: false,
        grams: Number(body.before.value) - Number(body.after.value),
      });
    }
  }

  #wishOf(commandId: string): Wish | undefined {
    return [...this.#wishes.values()].find(({ commands }) => commands.some(({ id }) => id === commandId));
  }

  /** The line is good, the clocks are right, everybody is signed in, and people look after what lies with them. */
  async #calm(): Promise<void> {
    this.#line.bad = false;
    await this.#line.deliver();
    for (const device of this.#devices) {
      device.off = 0;
      device.session = device.person;
    }
    for (let turn = 0; turn < 400; turn += 1) {
      for (const device of this.#devices) insist((await this.#sync(device)).is === 'done', 'a good line broke off');
      if (turn === 0) await this.#everyRefusalIsSeen();
      if ((await this.#left()) === 0) {
        for (const id of this.#dismissed) await this.#options.desk.leaveOut(id);
        // The first has not seen what the last one sent.
        for (const device of this.#devices) await this.#sync(device);
        return;
      }
      for (const device of this.#devices) for (let one = 0; one < 50; one += 1) await this.#decide(device);
      // What was handed over the office settles; what hangs on nothing else it leaves out.
      for (const id of await this.#options.desk.attention())
        if (this.#isHandedOver(id)) await this.#options.desk.leaveOut(id);
    }
    throw new Broken(
      `something is left to send: ${(await this.#rest()).map(({ envelope, state }) => `${envelope.id} ${state}`).join()}`,
    );
  }
  #isHandedOver(id: string): boolean {
    const wish = this.#wishOf(id);
    return wish !== undefined && this.#chance.once(4);
  }
  async #rest(): Promise<Entry[]> {
    const all = await Promise.all(this.#devices.map(({ disk }) => disk.read((tx) => tx.list<Entry>('outbox'))));
    return all.flat();
  }
  async #left(): Promise<number> {
    return (await this.#rest()).length;
  }

  async #everyRefusalIsSeen(): Promise<void> {
    const here = new Map((await this.#rest()).map((entry) => [entry.envelope.id, entry]));
    for (const id of await this.#options.desk.attention()) {
      if (this.#dismissed.has(id)) continue;
      const entry = here.get(id);
      const seen = entry && (isRefusal(entry) || entry.state === 'withdrawing');
      insist(seen === true, `${id} lies at the office, and its sender sees ${entry?.state ?? 'nothing'}`);
      insist(entry?.problem !== undefined, `${id} is refused without a reason`);
    }
  }

  async #check(): Promise<void> {
    const { desk, ground } = this.#options;
    const applied = await desk.applied();
    insist(new Set(applied).size === applied.length, 'a command is there twice');
    const done = new Set(applied);
    const expected: Record<string, number> = Object.fromEntries(ground.cylinders.map((id) => [id, 0]));
    for (const { cylinderId, commands } of this.#wishes.values()) {
      const wanted = commands.filter(({ gone }) => !gone);
      const booked = commands.filter(({ id }) => done.has(id));
      const idOf = (all: typeof commands): string => all.map(({ id }) => id).join();
      insist(wanted.length <= 1, `${idOf(wanted)} are both on their way`);
      insist(idOf(booked) === idOf(wanted), `booked ${idOf(booked)}, wanted ${idOf(wanted)} of ${idOf(commands)}`);
      // The table knows what people were told, and no order.
      for (const { grams } of wanted) expected[cylinderId] = expected[cylinderId]! + grams;
    }
    const books = await desk.books();
    insist(
      JSON.stringify(sorted(books)) === JSON.stringify(sorted(expected)),
      `books ${JSON.stringify(books)}, not ${JSON.stringify(expected)}`,
    );
    for (const { disk, person, name } of this.#devices) {
      const records = await disk.read((tx) => tx.list<KeptRecord>('record'));
      const scope = await desk.scopeOf(person);
      const theirs = await Promise.all(scope.toSorted().map((id) => desk.readVisit(person, id)));
      const here = JSON.stringify(records.map(({ value }) => value));
      insist(here === JSON.stringify(theirs), `${name} has ${here}, the office ${JSON.stringify(theirs)}`);
      insist((await disk.read((tx) => tx.list<LocalChange>('local'))).length === 0, `${name} shows what it thought`);
    }
    insist((await desk.attention()).length === 0, 'something lies at the office');
  }
}
const ownerOf = (userId: string) => ({ tenantId: 'tarn', userId });
const sorted = (books: Record<string, number>) =>
  Object.entries(books)
    .filter(([, grams]) => grams !== 0)
    .sort(([a], [b]) => (a < b ? -1 : 1));
