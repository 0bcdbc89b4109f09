/** Tells a story to the office: as whom, and when. */
import type { Actor, Office } from '@ullage/casework';
import type { CommandBody, CommandName, Role } from '@ullage/contracts';
import type { Calendar, Instant } from '@ullage/units';
import { callAt } from './things.ts';
import type { Thing } from './things.ts';

export const DEMO_ZONE = 'America/Denver';
export interface Stage {
  readonly office: Office;
  readonly calendar: Calendar;
  readonly actors: Readonly<Record<Role, Actor>>;
  /** Today at the firm. */
  readonly today: string;
  readonly newId: () => string;
  /** Sets the office's clock. */
  setClock(at: Instant): void;
  step(words: string): void;
}

/** Sends commands as people of the firm, at moments of the story. */
export class Teller {
  readonly stage: Stage;
  #at: Instant = '';
  constructor(stage: Stage) {
    this.stage = stage;
  }
  day(offset: number): string {
    return this.stage.calendar.addDays(this.stage.today, offset);
  }
  /** Goes to a wall-clock time, so many days from today. */
  go(offset: number, time: string): void {
    const local = this.stage.calendar.at(this.day(offset), time, DEMO_ZONE);
    this.#at = local.ok ? local.instant : this.stage.calendar.startOf(this.day(offset + 1), DEMO_ZONE);
    this.stage.setClock(this.#at);
  }
  async say<K extends CommandName>(role: Role, kind: K, body: CommandBody<K>): Promise<string> {
    const id = this.stage.newId();
    await this.stage.office.apply(this.stage.actors[role], { id, kind, received: { happenedAt: this.#at, body } });
    return id;
  }
  async place(
    visitId: string,
    given: { personId: string; offset: number; time: string; minutes: number },
  ): Promise<void> {
    const { visit } = await this.stage.office.visit(this.stage.actors.dispatcher, visitId);
    const { offset, ...rest } = given;
    await this.say('dispatcher', 'place-visit', { visitId, version: visit.version, day: this.day(offset), ...rest });
  }
}

/** A visit and its circuit: what most of a technician's commands name. */
export type On = { visitId: string; circuitId: string };
/** Takes the call of a thing and gives the visit it asked for. */
export async function takeCall(tell: Teller, thing: Thing, history: CommandBody<'take-call'>['history']): Promise<On> {
  const made = callAt(thing, { newId: tell.stage.newId, history });
  await tell.say('dispatcher', 'take-call', made);
  return { visitId: made.visit.id, circuitId: made.circuit.id };
}
