/** Rows of people with their certificates: one row for each certificate, or one for a person without. */
import { RegisterPerson } from '@ullage/contracts';
import type { CommandBody } from '@ullage/contracts';
import { Alike } from './alike.ts';
import { dayCell } from './cells.ts';
import type { Matched } from './columns.ts';
import { FIELDS } from './fields.ts';
import { Cells, checked, without, wrongRow } from './judge.ts';
import type { Ground, Judgement } from './judge.ts';
import { plain } from './likeness.ts';
import type { SheetRow } from './read/sheet.ts';
import { pick } from './say-choice.ts';

type Body = CommandBody<'register-person'>;
type Certificate = Body['certificates'][number];
const TYPES: Readonly<Record<Certificate['type'], readonly string[]>> = {
  I: ['1', 'type I', 'type 1'],
  II: ['2', 'type II', 'type 2'],
  III: ['3', 'type III', 'type 3'],
  universal: ['u', 'all', 'type universal', 'universal type'],
  apprentice: ['registered apprentice'],
};
const columnOf = (pointer: string): string | null => {
  const end = pointer.split('/').at(-1) ?? '';
  return ['type', 'registeredOn', 'endsOn', 'email'].includes(end) ? end : 'name';
};

interface Somebody {
  readonly id: string;
  readonly name: string;
  readonly email: string | undefined;
  readonly met: 'known' | 'made';
}

export class PeopleJudge {
  readonly #ground: Ground;
  readonly #matched: Matched;
  readonly #byName = new Map<string, Somebody[]>();
  readonly #byEmail = new Map<string, Somebody>();
  readonly #certificates = new Set<string>();
  readonly #alike = new Alike();
  constructor(ground: Ground, matched: Matched) {
    this.#ground = ground;
    this.#matched = matched;
    for (const { id, name, email, certificates } of ground.known.people) {
      this.#keep({ id, name, email: email?.toLowerCase(), met: 'known' });
      for (const { type, endsOn } of certificates) this.#hold(id, type, endsOn ?? undefined);
    }
  }

  judge(row: SheetRow): Judgement {
    const cells = new Cells(row, this.#matched, FIELDS.people);
    const name = cells.get('name') ?? cells.fault('name', 'missing; give first and last name.');
    const certificate = sayCertificate(cells, { ground: this.#ground, row: row.number });
    if (name === undefined || cells.faults.length > 0) return wrongRow(row.number, cells);
    const email = cells.get('email')?.toLowerCase();
    const key = questionOf(name, email);
    const decision = this.#ground.decisions[key];
    if (decision?.how === 'skip') return without(row.number, 'skipped');
    const there = decision?.how === 'same' ? this.#known(decision.id) : this.#there(name, email);
    if (there) return this.#judged(row.number, cells, { person: there, isNew: false, certificate });
    const likes = decision === undefined ? this.#alike.like(name) : [];
    if (likes.length > 0) return without(row.number, 'decide', { asks: [{ key, what: 'person', name, likes }] });
    const person = { id: this.#ground.idFor(key), name, email, met: 'made' } as const;
    return this.#judged(row.number, cells, { person, isNew: true, certificate });
  }

  #judged(
    number: number,
    cells: Cells,
    { person, isNew, certificate }: { person: Somebody; isNew: boolean; certificate: Certificate | undefined },
  ): Judgement {
    const { id, name, email, met } = person;
    const certificates = certificate && !this.#isHeld(id, certificate) ? [certificate] : [];
    if (!isNew && certificates.length === 0) return without(number, 'known');
    // No row depends on another: each names the person as they are called, and whichever comes first makes them.
    const said = { personId: id, name, ...(email === undefined || met === 'known' ? {} : { email }), certificates };
    const body = checked(cells, { schema: RegisterPerson, body: said, columnOf });
    if (!body) return wrongRow(number, cells);
    if (isNew) this.#keep(person);
    for (const { type, endsOn } of certificates) this.#hold(id, type, endsOn);
    const makes = [...(isNew ? [`Person ${name}`] : []), ...certificates.map(({ type }) => wordsOf(name, type))];
    const plan = { kind: 'register-person' as const, body, made: met === 'made' ? { person: id } : {} };
    return { number, state: 'fine', faults: [], makes, asks: [], plan };
  }

  /** One that has ended is renewed by another of its type. */
  #hold(id: string, type: string, endsOn: string | undefined): void {
    this.#certificates.add(`${id}|${type}|${endsOn ?? ''}`);
    if (endsOn === undefined || endsOn >= this.#ground.today) this.#certificates.add(`${id}|${type}`);
  }
  #isHeld(id: string, { type, endsOn }: Certificate): boolean {
    const same = [`${id}|${type}|${endsOn ?? ''}`, `${id}|${type}`];
    return same.some((one) => this.#certificates.has(one));
  }

  #keep(person: Somebody): void {
    const key = plain(person.name);
    this.#byName.set(key, [...(this.#byName.get(key) ?? []), person]);
    if (person.email !== undefined) this.#byEmail.set(person.email, person);
    this.#alike.add(person);
  }
  #known(id: string): Somebody | undefined {
    return [...this.#byName.values()].flat().find((person) => person.id === id);
  }

  /** By the address; by the name where that is one person's, and no two addresses speak against it. */
  #there(name: string, email: string | undefined): Somebody | undefined {
    const byEmail = email === undefined ? undefined : this.#byEmail.get(email);
    if (byEmail) return byEmail;
    const [only, ...more] = this.#byName.get(plain(name)) ?? [];
    const isOther = email !== undefined && only?.email !== undefined && only.email !== email;
    return more.length > 0 || isOther ? undefined : only;
  }
}

function sayCertificate(cells: Cells, { ground, row }: { ground: Ground; row: number }): Certificate | undefined {
  const type = pick(cells, 'type', TYPES);
  const [registeredOn, endsOn] = ['registeredOn', 'endsOn'].map((id) => {
    const text = cells.get(id);
    return text === undefined ? undefined : cells.read(id, dayCell(text, ground.settings.days));
  });
  assertTells(cells, { type, registeredOn, endsOn });
  if (type === undefined || cells.faults.length > 0) return undefined;
  const id = ground.idFor(`certificate|${row}`);
  return { id, scheme: 'us-608', type, ...(registeredOn && { registeredOn }), ...(endsOn && { endsOn }) };
}

/** Days belong to a certificate, and come in their order. */
function assertTells(
  cells: Cells,
  { type, registeredOn, endsOn }: { [part in 'type' | 'registeredOn' | 'endsOn']: string | undefined },
): void {
  if (cells.get('type') === undefined && (registeredOn ?? endsOn) !== undefined)
    cells.fault('type', 'missing; say which certificate the day belongs to.');
  // An apprenticeship without its registration cannot be judged by the law's two years (40 CFR 82.161(a)(1)).
  if (type === 'apprentice' && cells.get('registeredOn') === undefined)
    cells.fault('registeredOn', 'missing; the apprenticeship needs its day.');
  if (registeredOn !== undefined && endsOn !== undefined && endsOn < registeredOn)
    cells.fault('endsOn', 'it lies before the registration; check both days.');
}

/** Two of one name with different addresses are two questions. */
const questionOf = (name: string, email: string | undefined): string => `person|${plain(name)}|${email ?? ''}`;
const wordsOf = (name: string, type: Certificate['type']): string =>
  `Certificate of ${name}: ${type === 'apprentice' ? 'registered apprentice' : type === 'universal' ? type : `type ${type}`}`;
