/** What a row means by a name: something that is there, something an earlier row makes, or something new. */
import { Alike } from './alike.ts';
import { bare, plain } from './likeness.ts';
import type { Ground } from './judge.ts';
import type { Named, Question } from './questions.ts';

export interface Place {
  readonly id: string;
  readonly key: string;
  /** There already; made by an earlier row of this file; or not met before. */
  readonly met: 'known' | 'file' | 'new';
}
export interface CircuitPlace extends Place {
  /** What a circuit that is there already runs on. */
  readonly refrigerant: string | undefined;
}
const tagKey = (text: string): string => text.trim().toLowerCase();
const additionKey = (circuitId: string, onDay: string, grams: number | null): string =>
  `${circuitId}|${onDay}|${grams ?? 'unknown'}`;
type Asked = Pick<Question, 'what' | 'name'> & { readonly scope: string };

export class Places {
  readonly #ground: Ground;
  readonly #known = new Map<string, string>();
  readonly #gases = new Map<string, string>();
  readonly #inFile = new Set<string>();
  readonly #additions: Set<string>;
  /** By what they are and where they stand: names are alike only among their like. */
  readonly #alike = new Map<string, Alike>();

  constructor(ground: Ground) {
    this.#ground = ground;
    const { known } = ground;
    for (const { id, name } of known.customers) {
      this.#learn(`customer|${plain(name)}`, id);
      this.#offer('customer|', { id, name });
    }
    for (const { id, customerId, name, address } of known.sites) {
      this.#learn(`site|${customerId}|${plain(address)}`, id);
      this.#learn(`site|${customerId}|${plain(name)}`, id);
      this.#offer(`site|${customerId}`, { id, name: address });
    }
    for (const { id, siteId, tag } of known.units) {
      this.#learn(`unit|${siteId}|${tagKey(tag)}`, id);
      this.#offer(`unit|${siteId}|${bare(tag)}`, { id, name: tag });
    }
    for (const { id, unitId, letter, refrigerant } of known.circuits) {
      this.#learn(`circuit|${unitId}|${tagKey(letter)}`, id);
      this.#gases.set(id, refrigerant);
    }
    this.#additions = new Set(
      known.additions.map(({ circuitId, onDay, grams }) => additionKey(circuitId, onDay, grams)),
    );
  }

  /** The first of two that bear one name is meant: both are shown where they are chosen by hand. */
  #learn(key: string, id: string): void {
    if (!this.#known.has(key)) this.#known.set(key, id);
  }
  #offer(scope: string, named: Named): void {
    const alike = this.#alike.get(scope) ?? new Alike();
    alike.add(named);
    this.#alike.set(scope, alike);
  }
  #place(key: string): Place {
    const known = this.#known.get(key);
    if (known !== undefined) return { id: known, key, met: 'known' };
    const decision = this.#ground.decisions[key];
    if (decision?.how === 'same') return { id: decision.id, key, met: this.#isKnown(decision.id) ? 'known' : 'file' };
    return { id: this.#ground.idFor(key), key, met: this.#inFile.has(key) ? 'file' : 'new' };
  }
  #isKnown(id: string): boolean {
    const { customers, sites, units } = this.#ground.known;
    this.#knownIds ??= new Set([...customers, ...sites, ...units].map((one) => one.id));
    return this.#knownIds.has(id);
  }
  #knownIds: Set<string> | undefined;

  customer(name: string): Place {
    return this.#place(`customer|${plain(name)}`);
  }
  site(customerId: string, address: string): Place {
    return this.#place(`site|${customerId}|${plain(address)}`);
  }
  unit(siteId: string, tag: string): Place {
    return this.#place(`unit|${siteId}|${tagKey(tag)}`);
  }
  circuit(unitId: string, letter: string): CircuitPlace {
    const place = this.#place(`circuit|${unitId}|${tagKey(letter)}`);
    return { ...place, refrigerant: this.#gases.get(place.id) };
  }

  /** What is nearly alike and not decided yet; `scope` is what it would stand in. */
  question(place: Place, { what, name, scope }: Asked): Question | undefined {
    if (place.met !== 'new' || this.#ground.decisions[place.key] !== undefined) return undefined;
    const own = `${what}|${what === 'unit' ? `${scope}|${bare(name)}` : scope}`;
    const alike = this.#alike.get(own);
    // Of tags only their signs may differ: RTU-1 and RTU 1, never RTU-1 and RTU-2.
    const likes = (what === 'unit' ? alike?.all() : alike?.like(name)) ?? [];
    return likes.length === 0 ? undefined : { key: place.key, what, name, likes };
  }
  /** Whether somebody said that it is left out. */
  isSkipped(place: Place | undefined): boolean {
    return place !== undefined && this.#ground.decisions[place.key]?.how === 'skip';
  }

  /** Later rows find this as made by this file, and may be asked about names that are nearly the same. */
  keep(place: Place | undefined, asked?: Asked): void {
    if (place?.met !== 'new') return;
    this.#inFile.add(place.key);
    if (!asked) return;
    const { what, name, scope } = asked;
    this.#offer(`${what}|${what === 'unit' ? `${scope}|${bare(name)}` : scope}`, { id: place.id, name });
  }

  /** The same circuit, day and mass: one addition that is entered twice. */
  hasAddition(circuitId: string, onDay: string, grams: number | null): boolean {
    return this.#additions.has(additionKey(circuitId, onDay, grams));
  }
  keepAddition(circuitId: string, onDay: string, grams: number | null): void {
    this.#additions.add(additionKey(circuitId, onDay, grams));
  }
}
