/** Rows of past additions: a day and a mass at a circuit that is known. */
import { RecordPastAdditions } from '@ullage/contracts';
import { dayCell } from './cells.ts';
import type { Matched } from './columns.ts';
import { FIELDS } from './fields.ts';
import { Cells, checked, without, wrongRow } from './judge.ts';
import type { Ground, Judgement, Known } from './judge.ts';
import { plain } from './likeness.ts';
import { Places } from './places.ts';
import type { SheetRow } from './read/sheet.ts';
import { gramsOf, massWords, sayMass } from './say-mass.ts';

type Circuit = Known['circuits'][number];
interface Standing {
  readonly circuit: Circuit;
  readonly tag: string;
  readonly site: string;
  readonly words: readonly string[];
  readonly customer: string;
}
const OURS = ['us', 'we', 'ours', 'our', 'own', 'self', 'in house', 'me'];
const columnOf = (pointer: string): string | null => {
  const end = /\/(\w+)(?:\/\w+)?$/.exec(pointer)?.[1] ?? '';
  return { onDay: 'onDay', mass: 'mass', who: 'by' }[end] ?? null;
};
const tagKey = (text: string): string => text.trim().toLowerCase();

export class AdditionsJudge {
  readonly #ground: Ground;
  readonly #matched: Matched;
  readonly #places: Places;
  readonly #byTag: ReadonlyMap<string, readonly Standing[]>;
  constructor(ground: Ground, matched: Matched) {
    this.#ground = ground;
    this.#matched = matched;
    this.#places = new Places(ground);
    this.#byTag = Map.groupBy(standings(ground.known), ({ tag }) => tagKey(tag));
  }

  judge(row: SheetRow): Judgement {
    const cells = new Cells(row, this.#matched, FIELDS.additions);
    const standing = this.#circuitOf(cells);
    const onDay = this.#dayOf(cells);
    const mass = sayMass(cells, { id: 'mass', unitId: 'massUnit', settings: this.#ground.settings }) ?? null;
    if (cells.faults.length > 0 || !standing || onDay === undefined) return wrongRow(row.number, cells);
    const { circuit } = standing;
    if (this.#places.hasAddition(circuit.id, onDay, gramsOf(mass))) return without(row.number, 'known');
    const addition = { id: this.#ground.idFor(`addition|${row.number}`), onDay, mass, ...this.#by(cells) };
    const body = { circuitId: circuit.id, additions: [addition] };
    const read = checked(cells, { schema: RecordPastAdditions, body, columnOf });
    if (!read) return wrongRow(row.number, cells);
    this.#places.keepAddition(circuit.id, onDay, gramsOf(mass));
    const makes = [
      `Addition at ${standing.tag}-${circuit.letter}, ${onDay}: ${mass === null ? 'mass unknown, counts as a day' : massWords(mass)}`,
    ];
    const plan = { kind: 'record-past-additions' as const, body: read, made: {}, onCircuit: circuit.id };
    return { number: row.number, state: 'fine', faults: [], makes, asks: [], plan };
  }

  #dayOf(cells: Cells): string | undefined {
    const text = cells.get('onDay');
    if (text === undefined) return cells.fault('onDay', 'missing; say when it was added.');
    const day = cells.read('onDay', dayCell(text, this.#ground.settings.days));
    return day !== undefined && day > this.#ground.today
      ? cells.fault('onDay', `${day} lies in the future; give a past day.`)
      : day;
  }

  /** The name of another firm is kept; our own people are us. */
  #by(cells: Cells): { by: 'us' | 'other'; who?: string } {
    const who = cells.get('by');
    if (who === undefined) return { by: this.#ground.settings.by };
    const isUs = [...OURS, ...this.#ground.ours].some((name) => plain(name) === plain(who));
    if (isUs) return OURS.includes(plain(who)) ? { by: 'us' } : { by: 'us', who };
    return plain(who) === 'other' || plain(who) === 'others' ? { by: 'other' } : { by: 'other', who };
  }

  /** The circuit that tag, letter, site and customer leave; said so where they leave none or more than one. */
  #circuitOf(cells: Cells): Standing | undefined {
    const tag = cells.get('tag');
    if (tag === undefined) return cells.fault('tag', 'missing; give the tag of the unit.');
    const letter = cells.get('letter');
    const all = this.#candidates(tag, letter);
    if (all.length === 0)
      return cells.fault('tag', `${tag} is not entered yet; import units and circuits first, or check the tag.`);
    const [site, customer] = [cells.get('site'), cells.get('customer')];
    const there = all.filter(
      (one) =>
        (site === undefined || one.words.includes(plain(site))) &&
        (customer === undefined || plain(one.customer) === plain(customer)),
    );
    if (there.length === 0)
      return cells.fault('tag', `${tag} stands at another site or customer; it is known at ${all[0]?.site ?? ''}.`);
    const units = new Set(there.map(({ circuit }) => circuit.unitId));
    if (units.size > 1)
      return cells.fault('site', `${units.size} units bear the tag ${tag}; say at which site and of which customer.`);
    if (there.length > 1)
      return cells.fault('letter', `${tag} has ${there.length} circuits; say which, as ${there[0]?.circuit.letter}.`);
    return there[0];
  }

  /** By tag and letter, or by both in one: `0305-A`. */
  #candidates(tag: string, letter: string | undefined): readonly Standing[] {
    const ofTag = (text: string): readonly Standing[] => this.#byTag.get(tagKey(text)) ?? [];
    const own = ofTag(tag).filter(({ circuit }) => letter === undefined || tagKey(circuit.letter) === tagKey(letter));
    if (own.length > 0 || letter !== undefined) return own;
    const joined = /^(.+)-(\w{1,4})$/.exec(tag.trim());
    if (!joined) return [];
    return ofTag(joined[1] ?? '').filter(({ circuit }) => tagKey(circuit.letter) === tagKey(joined[2] ?? ''));
  }
}

function standings(known: Known): Standing[] {
  const units = new Map(known.units.map((unit) => [unit.id, unit]));
  const sites = new Map(known.sites.map((site) => [site.id, site]));
  const customers = new Map(known.customers.map((customer) => [customer.id, customer]));
  return known.circuits.flatMap((circuit): Standing[] => {
    const unit = units.get(circuit.unitId);
    const site = unit && sites.get(unit.siteId);
    const customer = site && customers.get(site.customerId);
    if (!unit || !site || !customer) return [];
    const words = [plain(site.name), plain(site.address)];
    return [{ circuit, tag: unit.tag, site: site.name, words, customer: customer.name }];
  });
}
