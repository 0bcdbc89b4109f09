/** What every visit of the full demo is written with, and the page it is written on. */
import type { CommandBody, CommandName } from '@ullage/contracts';
import type { Instant } from '@ullage/units';
import { Agenda } from './agenda.ts';
import type { Booked } from './agenda.ts';
import type { Chance } from './chance.ts';
import type { Unit } from './fleet.ts';
import type { Moments } from './moments.ts';
import { DRIVERS, TECHNICIANS } from './names.ts';
import type { Driver, Helper, Hired, PersonKey } from './names.ts';
import type { Command, Sender, Step, Task } from './steps.ts';
import { Stock } from './stock.ts';

/** Records that are there before: of the small demo, and of whoever makes accounts. */
export interface Known {
  readonly people: Readonly<Record<Exclude<PersonKey, Hired>, string>>;
  readonly store: string;
  readonly firstVan: string;
  readonly firstDetector: string;
}

/** A piece of the story with its place in time: pieces are written in that order, so that stock runs down as it did. */
export interface Planned {
  readonly offset: number;
  readonly start: number;
  readonly write: (studio: Studio) => Task;
}

export class Studio {
  readonly moments: Moments;
  readonly chance: Chance;
  readonly known: Known;
  readonly people: Readonly<Record<PersonKey, string>>;
  readonly agenda: Agenda;
  readonly stock: Stock;
  readonly vans: Readonly<Record<Driver, string>>;
  /** Changes where one is replaced: pieces are written in the order of time. */
  readonly detectors: Record<Driver, string>;
  /** Helpers and the days on which they go along with somebody. */
  readonly helped = new Set<string>();
  /** Customers, sites and units that an earlier call has made. */
  readonly #met = new Set<string>();

  constructor(given: { moments: Moments; chance: Chance; known: Known }) {
    const { moments, chance, known } = given;
    this.moments = moments;
    this.chance = chance;
    this.known = known;
    const hired = TECHNICIANS.map(({ name }) => [name, this.id(moments.at(-1095, 0))] as const);
    this.people = { ...known.people, ...(Object.fromEntries(hired) as Record<Hired, string>) };
    this.agenda = new Agenda(moments);
    this.stock = new Stock(given);
    this.vans = this.#each(known.firstVan);
    this.detectors = this.#each(known.firstDetector);
  }
  #each(first: string): Record<Driver, string> {
    const ids = DRIVERS.map((driver, at) => [driver, at === 0 ? first : this.id(this.moments.at(-1094, 0))]);
    return Object.fromEntries(ids) as Record<Driver, string>;
  }
  id(at: Instant): string {
    return this.moments.id(at, this.chance);
  }
  /** True the first time. */
  meets(id: string): boolean {
    if (this.#met.has(id)) return false;
    this.#met.add(id);
    return true;
  }
  /** The last workday that lies at least so many days before. */
  workdayBefore(offset: number, days: number): number {
    let day = offset - days;
    while (!this.moments.isWorkday(day)) day -= 1;
    return day;
  }
}

/** Steps being written, one after the other in time. */
export class Page {
  readonly studio: Studio;
  readonly steps: Step[] = [];
  readonly #touches = new Set<string>();
  #at: Instant;
  constructor(studio: Studio, offset: number, minute: number) {
    this.studio = studio;
    this.#at = studio.moments.at(offset, minute);
  }
  get at(): Instant {
    return this.#at;
  }
  go(offset: number, minute: number): this {
    this.#at = this.studio.moments.at(offset, minute);
    return this;
  }
  wait(minutes: number): this {
    this.#at = this.studio.moments.after(this.#at, minutes);
    return this;
  }
  newId(): string {
    return this.studio.id(this.#at);
  }
  touch(...things: readonly string[]): void {
    for (const thing of things) this.#touches.add(thing);
  }
  say<K extends CommandName>(by: Sender, kind: K, body: CommandBody<K>): string {
    const id = this.newId();
    this.steps.push({ at: this.#at, by, id, kind, body } as Command);
    return id;
  }
  task(name: string): Task {
    return { name, touches: [...this.#touches], steps: this.steps };
  }
}

/** A visit that is to be written: where, by whom, when. */
export interface Stop extends Booked {
  readonly unit: Unit;
  readonly driver: Driver;
  readonly minutes: number;
  readonly helper?: Helper;
  readonly symptom: string;
}
