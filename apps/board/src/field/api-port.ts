/** The port that talks to the API: reads go straight through, commands through the outbox, one envelope a push. */
import { KPA_PER_PSI } from '@ullage/units';
import type { CommandAnswer, CommandName, CylinderView, EvacuationQuery, MeView, Problem } from '@ullage/contracts';
import { call } from '../lib/client.ts';
import { Outbox, type Queued } from './outbox.ts';
import type { Command, FieldPort, Line, Read, Sent, Sync } from './port.ts';

type Path = `/v1/${string}`;
interface PushAnswer {
  readonly answers: readonly CommandAnswer[];
}
export interface ApiPortOptions {
  readonly outbox: Outbox;
  readonly now: () => Date;
  /** Waits before trying again, in ms, the last one for ever. */
  readonly waits?: readonly number[];
  /** Runs with no other tab sending at the same time. */
  readonly alone: (work: () => Promise<void>) => Promise<void>;
  /** Tells of changes on the server; gives back how to stop. */
  readonly watch: (onChange: () => void) => () => void;
}

/** @param body for a calculation, which is asked by POST and changes nothing */
async function read<T>(path: Path, body?: unknown): Promise<Read<T>> {
  const answer = await call<T>(path, body === undefined ? {} : { body });
  if (answer.ok) return { ok: true, data: answer.data };
  const { status, type, title, detail, errors } = answer.problem;
  return { ok: false, problem: { status, type, title, detail, errors: [...errors] } };
}

/** Who is signed in here, asked before there is a port: whose notes to open hangs on it. */
export const readMe = (): Promise<Read<MeView>> => read('/v1/me');

function evacuationPath(visitId: string, asked: EvacuationQuery): Path {
  const query = new URLSearchParams();
  for (const [name, value] of Object.entries(asked)) if (value !== undefined) query.set(name, String(value));
  return `/v1/visits/${visitId}/evacuation?${query.toString()}`;
}

function roomQuestion(view: CylinderView, refrigerant: string): object {
  const netKg = view.contents.reduce((sum, part) => sum + part.grams, 0) / 1000;
  const { kind, specification } = view.cylinder;
  const psig = view.servicePressurePsig;
  return {
    refrigerant,
    kind,
    specification,
    waterCapacityKg: view.waterCapacityKg,
    tareKg: view.tareGrams / 1000,
    grossKg: view.tareGrams / 1000 + netKg,
    ...(psig !== null && { servicePressureKpaGauge: psig * KPA_PER_PSI }),
    service: 'recovery',
  };
}

/** No signal, or a server that asks for patience: the same push may succeed later. */
export const isPassing = (status: number): boolean => status === 0 || status === 429 || status >= 500;
/** A command that the server holds for another one is asked after again. */
const HELD_WAIT_MS = 30_000;
const DEFAULT_WAITS = [1_000, 2_000, 5_000, 15_000, 30_000];
type Pushed = { readonly is: 'answer'; readonly answer: CommandAnswer } | { readonly is: 'stop'; readonly line: Line };

class ApiPort implements FieldPort {
  readonly #options: ApiPortOptions;
  readonly #listeners = new Set<(what: 'data' | 'sync') => void>();
  readonly #answers = new Map<string, CommandAnswer>();
  #line: Line = { is: 'sent', at: null };
  #shown: Sync;
  #draining: Promise<void> | undefined;
  #again = false;
  #timer: ReturnType<typeof setTimeout> | undefined;
  #tries = 0;
  #unwatch: (() => void) | undefined;

  constructor(options: ApiPortOptions) {
    this.#options = options;
    this.#shown = { line: this.#line, queued: options.outbox.all() };
    if (options.outbox.waiting().length > 0) this.retry();
  }

  me: FieldPort['me'] = readMe;
  today: FieldPort['today'] = ({ day, personId }) => read(`/v1/visits?day=${day}&personId=${personId}`);
  visit: FieldPort['visit'] = (id) => read(`/v1/visits/${encodeURIComponent(id)}`);
  evacuation: FieldPort['evacuation'] = (visitId, asked) => read(evacuationPath(visitId, asked));
  cylinders: FieldPort['cylinders'] = (query) =>
    read(query === '' ? '/v1/cylinders' : `/v1/cylinders?query=${encodeURIComponent(query)}`);
  cylinder: FieldPort['cylinder'] = (id) => read(`/v1/cylinders/${encodeURIComponent(id)}`);
  cylinderUse: FieldPort['cylinderUse'] = (id, { act, circuitId }) =>
    read(`/v1/cylinders/${encodeURIComponent(id)}/use?act=${act}&circuitId=${encodeURIComponent(circuitId)}`);

  room: FieldPort['room'] = (cylinder, refrigerant) =>
    read('/v1/sums/cylinder-room', roomQuestion(cylinder, refrigerant));

  sync = (): Sync => this.#shown;

  subscribe(onChange: (what: 'data' | 'sync') => void): () => void {
    this.#listeners.add(onChange);
    this.#unwatch ??= this.#options.watch(() => this.#tell('data'));
    return () => {
      this.#listeners.delete(onChange);
      if (this.#listeners.size > 0) return;
      this.#unwatch?.();
      this.#unwatch = undefined;
    };
  }

  retry(): void {
    clearTimeout(this.#timer);
    void this.#drain();
  }

  giveBack(id: string): boolean {
    const given = this.#options.outbox.giveBack(id);
    this.#tell('sync');
    return given;
  }

  async send<K extends CommandName>(command: Command<K>): Promise<Sent> {
    let queued: Queued;
    try {
      queued = await this.#options.outbox.add(command);
    } catch {
      return { is: 'full' };
    }
    this.#tell('sync');
    clearTimeout(this.#timer);
    await this.#drain();
    const answer = this.#answers.get(queued.envelope.id);
    this.#answers.delete(queued.envelope.id);
    return answer ? { is: 'answered', answer } : { is: 'kept' };
  }

  /** One drain at a time in this tab; asked for meanwhile, it runs once more. */
  #drain(): Promise<void> {
    this.#again = true;
    this.#draining ??= this.#drainAll().finally(() => {
      this.#draining = undefined;
    });
    return this.#draining;
  }

  async #drainAll(): Promise<void> {
    while (this.#again) {
      this.#again = false;
      await this.#options.alone(() => this.#round());
    }
  }

  /** Sends all that waits, in order; what the server holds for another command is stepped over. */
  async #round(): Promise<void> {
    const asked = new Set<string>();
    for (;;) {
      const next = this.#options.outbox.waiting().find((one) => !asked.has(one.envelope.id));
      if (!next) break;
      asked.add(next.envelope.id);
      // While there was no signal it goes on saying so, and since when, until something got through.
      if (this.#line.is !== 'offline') this.#set({ is: 'sending' });
      const pushed = await this.#push(next);
      if (pushed.is === 'stop') return this.#pause(pushed.line);
      this.#take(next, pushed.answer);
    }
    this.#tries = 0;
    if (asked.size > 0) this.#set({ is: 'sent', at: this.#options.now().toISOString() });
    else if (this.#line.is === 'offline') this.#set({ is: 'sent', at: null });
    if (this.#options.outbox.waiting().length > 0) this.#later(HELD_WAIT_MS);
  }

  #later(ms: number): void {
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => void this.#drain(), ms);
  }

  #take(queued: Queued, answer: CommandAnswer): void {
    this.#options.outbox.settle(queued.envelope.id, answer);
    this.#answers.set(queued.envelope.id, answer);
    this.#tell('data');
    this.#tell('sync');
  }

  #pause(line: Line): void {
    this.#set(line);
    const waits = this.#options.waits ?? DEFAULT_WAITS;
    const wait = waits[Math.min(this.#tries, waits.length - 1)] ?? 30_000;
    this.#tries += 1;
    if (line.is === 'offline') this.#later(wait);
  }

  async #push(queued: Queued): Promise<Pushed> {
    const { now, outbox } = this.#options;
    const body = { sentAt: now().toISOString(), device: outbox.device, commands: [queued.envelope] };
    const answer = await call<PushAnswer>('/v1/sync/push', { body, key: queued.envelope.id });
    const since = this.#line.is === 'offline' ? this.#line.since : now().toISOString();
    if (!answer.ok && answer.problem.status === 401) return { is: 'stop', line: { is: 'signed-out' } };
    if (!answer.ok && isPassing(answer.problem.status)) return { is: 'stop', line: { is: 'offline', since } };
    if (!answer.ok) {
      const { errors, rules } = answer.problem;
      const problem = { ...answer.problem, errors: [...errors], rules: [...rules] };
      return { is: 'answer', answer: refusedWhole(queued, problem) };
    }
    const own = answer.data.answers.find((one) => one.id === queued.envelope.id);
    return own ? { is: 'answer', answer: own } : { is: 'stop', line: { is: 'offline', since } };
  }

  #set(line: Line): void {
    this.#line = line;
    this.#tell('sync');
  }

  #tell(what: 'data' | 'sync'): void {
    this.#shown = { line: this.#line, queued: this.#options.outbox.all() };
    for (const listener of this.#listeners) listener(what);
  }
}

/** The push itself was refused (a role that may not record, for instance): the command is given back with the reason. */
const refusedWhole = (queued: Queued, problem: Problem): CommandAnswer => ({
  id: queued.envelope.id,
  outcome: 'needs-attention',
  records: [],
  asks: [],
  problem,
});

export const makeApiPort = (options: ApiPortOptions): FieldPort => new ApiPort(options);
