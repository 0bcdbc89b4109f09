/** Rows of cylinders by their stamps, with what is in them by the scale. */
import { RegisterCylinder } from '@ullage/contracts';
import type { CommandBody } from '@ullage/contracts';
import { figureOf, monthCell, short } from './cells.ts';
import type { Matched } from './columns.ts';
import { FIELDS } from './fields.ts';
import { Cells, checked, without, wrongRow } from './judge.ts';
import type { Ground, Judgement } from './judge.ts';
import { bare, plain } from './likeness.ts';
import type { Named } from './questions.ts';
import type { SheetRow } from './read/sheet.ts';
import { pick, sayRefrigerant } from './say-choice.ts';
import { gramsOf, massWords, sayMass } from './say-mass.ts';

type Body = CommandBody<'register-cylinder'>;
const KINDS: Readonly<Record<Body['kind'], readonly string[]>> = {
  disposable: ['non refillable', 'jug', 'dac'],
  refillable: ['returnable', 'reusable'],
  recovery: ['recovery tank', 'recovery cylinder'],
};
const STATES: Readonly<Record<NonNullable<Body['gas']>['state'], readonly string[]>> = {
  new: ['virgin'],
  recovered: ['used'],
  recycled: [],
  reclaimed: [],
};
const NEEDED = ['serial', 'kind', 'specification', 'waterCapacity', 'tare'];
const COLUMNS: Readonly<Record<string, string>> = {
  'gas/gross': 'gross',
  'gas/state': 'gasState',
  'gas/refrigerant': 'refrigerant',
  servicePressurePsig: 'servicePressure',
  ownerCustomerId: 'owner',
};
const columnOf = (pointer: string): string | null => {
  const [first = '', second = ''] = pointer.replace('#/', '').split('/');
  return COLUMNS[`${first}/${second}`] ?? COLUMNS[first] ?? first;
};
/** A serial is one maker's: of two that are stamped otherwise alike a person says whether they are one. */
const stampOf = (serial: string, specification: string): string => `${bare(serial)}|${bare(specification)}`;

export class CylindersJudge {
  readonly #ground: Ground;
  readonly #matched: Matched;
  readonly #known: ReadonlySet<string>;
  readonly #bySerial: ReadonlyMap<string, readonly Named[]>;
  /** Cylinders of this file, and the row each stands in. */
  readonly #rows = new Map<string, number>();
  constructor(ground: Ground, matched: Matched) {
    this.#ground = ground;
    this.#matched = matched;
    const { cylinders } = ground.known;
    this.#known = new Set(cylinders.map(({ serial, specification }) => stampOf(serial, specification)));
    const named = cylinders.map((one) => ({ id: one.id, name: nameOf(one), serial: bare(one.serial) }));
    this.#bySerial = Map.groupBy(named, ({ serial }) => serial);
  }

  judge(row: SheetRow): Judgement {
    const cells = new Cells(row, this.#matched, FIELDS.cylinders);
    const said = this.#say(cells, row.number);
    if (cells.faults.length > 0) return wrongRow(row.number, cells);
    const body = checked(cells, { schema: RegisterCylinder, body: said, columnOf });
    if (!body) return wrongRow(row.number, cells);
    const stamp = stampOf(body.serial, body.specification);
    const earlier = this.#rows.get(stamp);
    if (earlier !== undefined)
      cells.fault('serial', `the same cylinder stands in row ${earlier}; leave one of the two rows out.`);
    if (body.gas && (gramsOf(body.gas.gross) ?? 0) < (gramsOf(body.tare) ?? 0))
      cells.fault('gross', 'below the tare; check both figures.');
    if (cells.faults.length > 0) return wrongRow(row.number, cells);
    this.#rows.set(stamp, row.number);
    return this.#judged(row.number, body, stamp);
  }

  #judged(number: number, body: Body, stamp: string): Judgement {
    if (this.#known.has(stamp)) return without(number, 'known');
    const key = `cylinder|${stamp}`;
    const decision = this.#ground.decisions[key];
    if (decision?.how === 'same') return without(number, 'known');
    if (decision?.how === 'skip') return without(number, 'skipped');
    const likes = (this.#bySerial.get(bare(body.serial)) ?? []).map(({ id, name }) => ({ id, name }));
    if (decision === undefined && likes.length > 0)
      return without(number, 'decide', { asks: [{ key, what: 'cylinder', name: nameOf(body), likes }] });
    const holds = body.gas
      ? `, ${massWords(body.gas.gross)} gross, ${body.gas.refrigerant} ${body.gas.state}`
      : ', empty';
    const plan = { kind: 'register-cylinder' as const, body, made: { cylinder: body.cylinderId } };
    return { number, state: 'fine', faults: [], makes: [`Cylinder ${nameOf(body)}${holds}`], asks: [], plan };
  }

  #say(cells: Cells, row: number): object {
    const { settings } = this.#ground;
    for (const id of NEEDED) if (cells.get(id) === undefined) cells.fault(id, 'missing; read it off the cylinder.');
    const body = {
      cylinderId: this.#ground.idFor(`cylinder|${row}`),
      serial: cells.get('serial'),
      specification: cells.get('specification'),
      label: cells.get('label'),
      kind: pick(cells, 'kind', KINDS),
      waterCapacity: sayMass(cells, { id: 'waterCapacity', settings }),
      tare: sayMass(cells, { id: 'tare', settings }),
      servicePressurePsig: this.#pressure(cells),
      madeMonth: this.#month(cells, 'madeMonth'),
      testedMonth: this.#month(cells, 'testedMonth'),
      ownerCustomerId: this.#owner(cells),
      gas: this.#gas(cells),
    };
    // A field that is there without a value is another body than one without it: what is kept is what was read.
    return JSON.parse(JSON.stringify(body)) as object;
  }

  #pressure(cells: Cells): number | undefined {
    const text = cells.get('servicePressure');
    if (text === undefined) return undefined;
    const figure = figureOf(text.replace(/\s*psig?$/i, ''), this.#ground.settings.decimal);
    return figure === undefined
      ? cells.fault('servicePressure', `“${short(text)}” is no pressure; give psig, as 400.`)
      : Number(figure);
  }
  #month(cells: Cells, id: string): string | undefined {
    const text = cells.get(id);
    return text === undefined ? undefined : cells.read(id, monthCell(text, this.#ground.settings.days));
  }

  /** Ours where nobody is named; a customer has to be entered before: a slip must not make one. */
  #owner(cells: Cells): string | undefined {
    const text = cells.get('owner');
    if (text === undefined || this.#ground.ours.some((name) => plain(name) === plain(text))) return undefined;
    const customer = this.#ground.known.customers.find(({ name }) => plain(name) === plain(text));
    const why = `${short(text)} is not entered yet; import customers first, or check the name.`;
    return customer?.id ?? cells.fault('owner', why);
  }

  /** Nothing for an empty one; of one with gas all three have to be said. */
  #gas(cells: Cells): object | undefined {
    const gross = sayMass(cells, { id: 'gross', settings: this.#ground.settings });
    const refrigerant = sayRefrigerant(cells, this.#ground);
    const state = pick(cells, 'gasState', STATES);
    if (['refrigerant', 'gross'].every((id) => cells.get(id) === undefined)) return undefined;
    if (cells.get('refrigerant') === undefined) cells.fault('refrigerant', 'missing; say what is in it, as R-448A.');
    if (cells.get('gross') === undefined) cells.fault('gross', 'missing; weigh it and give what the scale shows.');
    if (cells.get('gasState') === undefined)
      cells.fault('gasState', 'missing; give new, recovered, recycled or reclaimed.');
    return { refrigerant, state, gross };
  }
}

const nameOf = ({ serial, specification }: { serial: string; specification: string }): string =>
  `${serial}, ${specification}`;
