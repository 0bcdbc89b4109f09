/** The demo's two firms and who signs in there: small or full, told in one go. */
import { createOffice } from '@ullage/casework';
import type { Actor } from '@ullage/casework';
import type { Role } from '@ullage/contracts';
import type { Database } from '@ullage/database';
import type { Calendar, Instant } from '@ullage/units';
import { addFirm, addMember } from './accounts.ts';
import type { Accounts } from './accounts.ts';
import { DEMO_ZONE, seedDemo } from './demo.ts';
import { Chance } from './full/chance.ts';
import { emailOf, TECHNICIANS } from './full/names.ts';
import { scenario } from './full/scenario.ts';
import { tellScenario } from './full/tell.ts';
import type { Sender } from './full/steps.ts';
import { NEIGHBOUR, tellNeighbour } from './neighbour.ts';

const FIRM = 'Heron Vale Refrigeration';
const SEED = 'heron vale';
const PEOPLE: Readonly<Record<Role, string>> = {
  owner: 'Verity Hollis',
  manager: 'Anders Vale',
  dispatcher: 'Pia Renn',
  warehouse: 'Cal Dorsey',
  technician: 'Noor Haddock',
  auditor: 'Lotte Brandt',
};

export interface SignIn {
  readonly firm: string;
  readonly role: Role;
  readonly email: string;
  readonly password: string;
}
export interface Stagehands {
  readonly accounts: Accounts;
  readonly database: Database;
  readonly calendar: Calendar;
  readonly now: Instant;
  newPassword(): string;
  hash(password: string): Promise<string>;
  readonly step: (words: string) => void;
}

type Person = readonly [role: Role, name: string];
/** A firm with accounts that somebody can sign in with. */
async function openFirm(
  hands: Stagehands,
  firm: { name: string; people: readonly Person[]; addressOf: (person: Person) => string },
): Promise<{ tenantId: string; actors: Map<Role, Actor>; signIns: SignIn[] }> {
  const at = new Date(hands.now);
  const tenantId = await addFirm(hands.accounts, { name: firm.name, timeZone: DEMO_ZONE, at });
  const actors = new Map<Role, Actor>();
  const signIns: SignIn[] = [];
  for (const person of firm.people) {
    const [role, name] = person;
    const signIn = { firm: firm.name, role, email: firm.addressOf(person), password: hands.newPassword() };
    const account = { role, name, email: signIn.email, password: await hands.hash(signIn.password) };
    actors.set(role, await addMember(hands.accounts, account, { tenantId, at }));
    signIns.push(signIn);
  }
  return { tenantId, actors, signIns };
}

/** Its ids are the same at every run of a day, and in the order in which they are made, whatever the story's clock says. */
function storyOffice({ database, calendar, now }: Stagehands, seed: string) {
  let clock = now;
  const chance = new Chance(seed);
  const today = calendar.epochMs(calendar.startOf(calendar.dayOf(now, DEMO_ZONE), DEMO_ZONE));
  const newId = (): string => chance.id(today);
  const office = createOffice({ database, calendar, now: () => clock, newId });
  return { office, newId, setClock: (at: Instant) => (clock = at) };
}

/**
 * Makes the demo in an empty database. `small`: the first stories alone; `full`: three years around them, and a second
 * firm behind its own wall.
 */
export async function tellDemo(hands: Stagehands, size: 'small' | 'full'): Promise<SignIn[]> {
  const { calendar, step } = hands;
  const today = calendar.dayOf(hands.now, DEMO_ZONE);
  const people = Object.entries(PEOPLE) as [Role, string][];
  const firm = await openFirm(hands, { name: FIRM, people, addressOf: ([role]) => `${role}@heronvale.example` });
  const actors = Object.fromEntries(firm.actors) as Record<Role, Actor>;
  const stage = { calendar, actors, today, step, ...storyOffice(hands, `${SEED}, first stories`) };
  const told = await seedDemo(stage);
  if (size === 'small') return firm.signIns;
  const [second = '', apprentice = ''] = told.helperIds;
  const known = {
    people: { technician: told.technicianId, 'Odell Marsh': second, 'Juno Pell': apprentice },
    store: told.store,
    firstVan: told.van,
    firstDetector: told.detector,
  };
  step('demo: three years of 40 customers');
  const { database } = hands;
  const progress = everyTenth(step);
  await tellScenario(
    { database, calendar, zone: DEMO_ZONE, actors: firm.actors as ReadonlyMap<Sender, Actor>, progress },
    scenario({ calendar, zone: DEMO_ZONE, today, known, seed: SEED }),
    () => hire(hands, firm.tenantId),
  );
  step('demo: a second firm, behind its own wall');
  return [...firm.signIns, ...(await openNeighbour(hands, today))];
}

/** Technicians with an account each, so that what they did stands under their names; nobody has their passwords. */
async function hire({ accounts, now }: Stagehands, tenantId: string): Promise<ReadonlyMap<Sender, Actor>> {
  const hired = new Map<Sender, Actor>();
  for (const { name } of TECHNICIANS) {
    const account = { role: 'technician' as const, name, email: emailOf(name) };
    hired.set(name, await addMember(accounts, account, { tenantId, at: new Date(now) }));
  }
  return hired;
}

async function openNeighbour(hands: Stagehands, today: string): Promise<SignIn[]> {
  const { calendar, step } = hands;
  const { name, people, domain } = NEIGHBOUR;
  const firm = await openFirm(hands, { name, people, addressOf: ([role]) => `${role}@${domain}` });
  const actors = Object.fromEntries(firm.actors) as Record<Role, Actor>;
  await tellNeighbour({ calendar, actors, today, step, ...storyOffice(hands, name) });
  return firm.signIns;
}

/** A line for every tenth of the way. */
function everyTenth(step: (words: string) => void): (done: number, of: number) => void {
  let said = 0;
  return (done, of) => {
    const tenth = Math.floor((done * 10) / of);
    if (tenth <= said) return;
    said = tenth;
    step(`demo: ${tenth * 10} % of three years told`);
  };
}
