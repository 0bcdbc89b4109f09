/** Rows of customers, sites, units and circuits. A row may end after any of them. */
import { RegisterEquipment } from '@ullage/contracts';
import type { CommandBody } from '@ullage/contracts';
import type { Matched } from './columns.ts';
import { FIELDS } from './fields.ts';
import { Cells, checked, without, wrongRow } from './judge.ts';
import type { Ground, Judgement, Plan } from './judge.ts';
import { Places } from './places.ts';
import type { CircuitPlace, Place } from './places.ts';
import type { Question } from './questions.ts';
import type { SheetRow } from './read/sheet.ts';
import { assertWhole, say } from './say-equipment.ts';
import type { Said } from './say-equipment.ts';
import { gramsOf, massWords } from './say-mass.ts';

type Body = CommandBody<'register-equipment'>;

/** Where a fault of the body comes from, by the end of its pointer. */
const COLUMNS: readonly (readonly [string, string])[] = [
  ['customer/', 'customer'],
  ['site/new/timeZone', 'timeZone'],
  ['site/new/elevationM', 'elevation'],
  ['site/new/name', 'siteName'],
  ['site/new/region', 'region'],
  ['site', 'address'],
  ['unit/new/description', 'description'],
  ['unit', 'tag'],
  ['circuit/new/letter', 'letter'],
  ['circuit/new/refrigerant', 'refrigerant'],
  ['circuit/new/use', 'use'],
  ['circuit/new/equipment', 'equipment'],
  ['circuit/new/installedOn', 'installedOn'],
  ['circuit/new/fullCharge', 'fullCharge'],
  ['circuit', 'refrigerant'],
  ['history/0/mass', 'lastMass'],
  ['history', 'lastOn'],
];
const columnOf = (pointer: string): string | null =>
  COLUMNS.find(([start]) => pointer.startsWith(`#/${start}`))?.[1] ?? null;

/** Judges rows one after another: what an earlier row makes, a later one finds there. */
export class EquipmentJudge {
  readonly #ground: Ground;
  readonly #matched: Matched;
  readonly #places: Places;
  /** Circuits of this file, and the row each stands in. */
  readonly #rows = new Map<string, number>();
  constructor(ground: Ground, matched: Matched) {
    this.#ground = ground;
    this.#matched = matched;
    this.#places = new Places(ground);
  }

  judge(row: SheetRow): Judgement {
    const cells = new Cells(row, this.#matched, FIELDS.equipment);
    const said = say(cells, this.#ground);
    if (cells.faults.length > 0) return wrongRow(row.number, cells);
    const found = this.#find(said);
    if (this.#isSkipped(found)) return without(row.number, 'skipped');
    const asks = this.#asks(said, found);
    if (asks.length > 0) return without(row.number, 'decide', { asks });
    this.#assertNew(cells, said, found);
    if (cells.faults.length > 0) return wrongRow(row.number, cells);
    const history = this.#history(said, { circuit: found.circuit, row: row.number });
    const body = checked(cells, { schema: RegisterEquipment, body: bodyOf(said, found, history), columnOf });
    if (!body) return wrongRow(row.number, cells);
    this.#keep(said, found, { row: row.number, history });
    const makes = [...madeWords(said, found), ...historyWords(history)];
    if (makes.length === 0) return without(row.number, 'known');
    if (found.circuit?.met === 'new' && history.length === 0) makes.push(unknownLast(this.#ground));
    const made = madeIds(found);
    const plan: Plan = { kind: 'register-equipment', body, made, onCircuit: found.circuit?.id };
    return { number: row.number, state: 'fine', faults: [], makes, asks: [], plan };
  }

  #find(said: Said): Found {
    const customer = this.#places.customer(said.customer);
    const site = said.site && this.#places.site(customer.id, said.site.address);
    const unit = site && said.unit && this.#places.unit(site.id, said.unit.tag);
    const circuit = unit && said.circuit && this.#places.circuit(unit.id, said.circuit.letter);
    return { customer, site, unit, circuit };
  }

  #assertNew(cells: Cells, said: Said, { circuit }: Found): void {
    if (!circuit) return;
    if (circuit.met !== 'known') assertWhole(cells, said);
    const row = this.#rows.get(circuit.id);
    if (row !== undefined)
      cells.fault('letter', `the same circuit stands in row ${row}; give another letter, or leave one row out.`);
    const gas = said.circuit?.refrigerant;
    if (circuit.refrigerant !== undefined && gas !== undefined && gas !== circuit.refrigerant)
      cells.fault('refrigerant', `the circuit is entered with ${circuit.refrigerant}; check which is right.`);
  }

  #history(said: Said, given: { circuit: Found['circuit']; row: number }): Body['history'] {
    const { last } = said;
    if (!last || !given.circuit || this.#places.hasAddition(given.circuit.id, last.onDay, gramsOf(last.mass)))
      return [];
    return [{ id: this.#ground.idFor(`addition|${given.row}`), ...last, by: this.#ground.settings.by }];
  }

  #isSkipped({ customer, site, unit }: Found): boolean {
    return [customer, site, unit].some((place) => this.#places.isSkipped(place));
  }
  /** What the row names nearly like something else; what stands in it is asked about once that is said. */
  #asks(said: Said, found: Found): Question[] {
    for (const { place, asked } of namesOf(said, found)) {
      const question = this.#places.question(place, asked);
      if (question) return [question];
    }
    return [];
  }

  #keep(said: Said, found: Found, { row, history }: { row: number; history: Body['history'] }): void {
    for (const { place, asked } of namesOf(said, found)) this.#places.keep(place, asked);
    const { circuit } = found;
    if (!circuit) return;
    this.#places.keep(circuit);
    this.#rows.set(circuit.id, row);
    for (const { onDay, mass } of history) this.#places.keepAddition(circuit.id, onDay, gramsOf(mass));
  }
}

/** The names of a row, from the outside in. */
function namesOf(said: Said, { customer, site, unit }: Found) {
  return [
    { place: customer, asked: { what: 'customer', name: said.customer, scope: '' } },
    ...(site && said.site
      ? [{ place: site, asked: { what: 'site', name: said.site.address, scope: customer.id } } as const]
      : []),
    ...(site && unit && said.unit
      ? [{ place: unit, asked: { what: 'unit', name: said.unit.tag, scope: site.id } } as const]
      : []),
  ] as const;
}

interface Found {
  readonly customer: Place;
  readonly site: Place | undefined;
  readonly unit: Place | undefined;
  readonly circuit: CircuitPlace | undefined;
}

function madeWords(said: Said, { customer, site, unit, circuit }: Found): string[] {
  const isNew = (place: Place | undefined, words: () => string): string[] => (place?.met === 'new' ? [words()] : []);
  return [
    ...isNew(customer, () => `Customer ${said.customer}`),
    ...isNew(site, () => `Site ${said.site?.address}`),
    ...(site?.met === 'new' && said.site?.rest.elevationM === undefined
      ? ['Height of the site unknown: sea level taken until it is given']
      : []),
    ...isNew(unit, () => `Unit ${said.unit?.tag}`),
    ...isNew(circuit, () => circuitWords(said.circuit)),
  ];
}
const circuitWords = (circuit: Said['circuit']): string =>
  `Circuit ${circuit?.letter}: ${circuit?.refrigerant}${circuit?.fullCharge ? `, ${massWords(circuit.fullCharge.mass)}` : ''}`;
const historyWords = (history: Body['history']): string[] =>
  history.map(({ onDay, mass }) => `Addition of ${onDay}, ${mass === null ? 'mass unknown' : massWords(mass)}`);
const unknownLast = ({ firstRate: { days, clause } }: Ground): string =>
  `Last addition unknown: ${days} days assumed, because there is no earlier day to count from (${clause})`;

/** Also what an earlier row of the file makes: whichever of them is carried out first makes it. */
function madeIds({ customer, site, unit, circuit }: Found): Plan['made'] {
  const idOf = (place: Place | undefined): string | undefined => (place?.met === 'known' ? undefined : place?.id);
  return { customer: idOf(customer), site: idOf(site), unit: idOf(unit), circuit: idOf(circuit) };
}

/** `new` stands wherever this file makes the thing, in an earlier row too: no row depends on another. */
function bodyOf(said: Said, found: Found, history: Body['history']): unknown {
  const entry = (place: Place | undefined, made: object | undefined): object | undefined =>
    place && { id: place.id, ...(place.met === 'known' ? {} : { new: made }) };
  const site = said.site && { address: said.site.address, ...said.site.rest };
  const body = {
    customer: entry(found.customer, { name: said.customer }),
    site: entry(found.site, site),
    unit: entry(found.unit, said.unit),
    circuit: entry(found.circuit, said.circuit),
    history,
  };
  // A field that is there without a value is another body than one without it: what is kept is what was read.
  return JSON.parse(JSON.stringify(body)) as unknown;
}
