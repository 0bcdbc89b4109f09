/** Tells a scenario to the office, through the same commands as real work, several pieces side by side. */
import { createOffice } from '@ullage/casework';
import type { Actor, Office } from '@ullage/casework';
import type { CommandName } from '@ullage/contracts';
import type { Database } from '@ullage/database';
import type { Calendar, Instant } from '@ullage/units';
import { Chance } from './chance.ts';
import type { Scenario } from './scenario.ts';
import type { Billing, Return, Sender, Step, Task } from './steps.ts';

/** Enough to keep the database busy while one piece is being thought about; more would wait at the feed's counter. */
const AT_ONCE = 4;

export interface Audience {
  readonly database: Database;
  readonly calendar: Calendar;
  readonly zone: string;
  readonly actors: ReadonlyMap<Sender, Actor>;
  /** How many of all pieces have been told. */
  progress(done: number, of: number): void;
}

/** One piece being told: an office whose clock is the story's, and the visits that stand for those proposed by law. */
class Telling {
  readonly #audience: Audience;
  readonly #office: Office;
  readonly #visits = new Map<string, { id: string; version: number }>();
  #now: Instant = '';

  constructor(audience: Audience, name: string) {
    const { database, calendar } = audience;
    const chance = new Chance(name);
    this.#audience = audience;
    this.#office = createOffice({
      database,
      calendar,
      now: () => this.#now,
      newId: () => chance.id(calendar.epochMs(this.#now)),
    });
  }

  async tell(steps: readonly Step[]): Promise<void> {
    for (const step of steps) {
      this.#now = step.at;
      if (step.kind === 'return') await this.#goBack(step);
      else if (step.kind === 'billing') await this.#bill(step);
      else await this.#say(step.by, { id: step.id, kind: step.kind, body: this.#named(step.body) });
    }
  }

  #actor(by: Sender): Actor {
    const actor = this.#audience.actors.get(by);
    if (!actor) throw new RangeError(`nobody is signed in as ${by}`);
    return actor;
  }

  async #say(by: Sender, { id, kind, body }: { id: string; kind: CommandName; body: object }): Promise<void> {
    await this.#office.apply(this.#actor(by), { id, kind, received: { happenedAt: this.#now, body } });
  }

  /** The body as it is, with the visit that was proposed where one was. */
  #named(body: object): object {
    const visit = 'visitId' in body && typeof body.visitId === 'string' ? this.#visits.get(body.visitId) : undefined;
    if (!visit) return body;
    return { ...body, visitId: visit.id, ...('version' in body ? { version: visit.version } : {}) };
  }

  async #goBack({ tag, purpose, visitId, callId, call }: Return): Promise<void> {
    const { items } = await this.#office.visits(this.#actor('dispatcher'), {});
    const found = items.find(
      (one) => one.state === 'proposed' && one.purpose === purpose && one.circuitTags.includes(tag),
    );
    if (found) this.#visits.set(visitId, found);
    else await this.#say('dispatcher', { id: callId, kind: 'take-call', body: call });
  }

  /** Each month's visits are billed on the third of the next. */
  async #bill({ upToDay, series }: Billing): Promise<void> {
    const { calendar, zone } = this.#audience;
    const { rows } = await this.#office.gasUsedWhole(this.#actor('manager'), { billed: 'open' });
    const due = rows.filter(({ day, billGrams }) => day <= upToDay && billGrams > 0);
    const ids = new Chance(series);
    for (const [nth, { visitId, refrigerant, billGrams: grams, day }] of due.toReversed().entries()) {
      const on = calendar.addDays(calendar.addMonths(`${day.slice(0, 7)}-01`, 1), 2);
      this.#now = calendar.startOf(on, zone);
      const newId = (): string => ids.id(calendar.epochMs(this.#now));
      const body = {
        billId: newId(),
        visitId,
        refrigerant,
        grams,
        invoice: `${series}-${day.slice(2, 4)}${1001 + nth}`,
      };
      await this.#say('manager', { id: newId(), kind: 'bill-gas', body });
    }
  }
}

async function tellOne(audience: Audience, task: Task, nth: number): Promise<void> {
  try {
    await new Telling(audience, `${nth} ${task.name}`).tell(task.steps);
  } catch (error) {
    throw new Error(`The demo stopped at the ${task.name}: ${error instanceof Error ? error.message : String(error)}`, {
      cause: error,
    });
  }
}

/** Pieces start in their order; one that touches what an earlier one touches waits for it. */
async function tellAll(audience: Audience, tasks: readonly Task[]): Promise<void> {
  const last = new Map<string, Promise<void>>();
  const running = new Set<Promise<void>>();
  let done = 0;
  for (const [nth, task] of tasks.entries()) {
    const before = task.touches.flatMap((thing) => last.get(thing) ?? []);
    const told = Promise.all(before)
      .then(() => tellOne(audience, task, nth))
      .then(() => audience.progress(++done, tasks.length));
    for (const thing of task.touches) last.set(thing, told);
    const ended = told.finally(() => running.delete(ended));
    // A failure ends the whole; that others fail after it is no news.
    ended.catch(() => undefined);
    running.add(ended);
    if (running.size >= AT_ONCE) await Promise.race(running);
  }
  await Promise.all(running);
}

/** Papers and places first; `hire` then gives those who have papers a sign-in. */
export async function tellScenario(
  audience: Audience,
  { house, tasks, closing }: Scenario,
  hire: () => Promise<ReadonlyMap<Sender, Actor>>,
): Promise<void> {
  await tellOne(audience, house, -1);
  const hired = await hire();
  const everybody = { ...audience, actors: new Map([...audience.actors, ...hired]) };
  await tellAll(everybody, tasks);
  await tellOne(everybody, closing, tasks.length);
}
