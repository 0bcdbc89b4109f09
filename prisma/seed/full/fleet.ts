/** Customers, sites and units of the full demo. */
import type { CommandBody } from '@ullage/contracts';
import { Chance } from './chance.ts';
import { chargeOf, KINDS, OUTFITS } from './equipment.ts';
import type { KindName } from './equipment.ts';
import { ACCESS, CUSTOMERS, DRIVERS, ROUNDS, STREETS } from './names.ts';
import type { CustomerName, Driver } from './names.ts';
import type { Moments } from './moments.ts';

type Call = CommandBody<'take-call'>;
export interface Site {
  readonly id: string;
  readonly customer: { readonly id: string; readonly name: string; readonly contact: string };
  readonly driver: Driver;
  readonly made: NonNullable<Call['site']['new']>;
}
export interface Unit {
  readonly id: string;
  readonly circuitId: string;
  readonly tag: string;
  readonly description: string;
  readonly kind: KindName;
  readonly refrigerant: string;
  readonly pounds: number;
  readonly site: Site;
  readonly installedOn: string;
  /** A story is told of it. */
  readonly ofStory: boolean;
}

/** Beside the small demo's five of each: about 40 customers, 90 sites and 220 units in all. */
export const UNITS = 215;
/** First tag; a site has ten. */
const FIRST_TAG = 1001;

interface Fixed {
  readonly kind: KindName;
  readonly description: string;
  readonly refrigerant: string;
  readonly pounds: number;
}
const fixed = (kind: KindName, description: string, [refrigerant, pounds]: readonly [string, number]): Fixed => ({
  kind,
  description,
  refrigerant,
  pounds,
});
/** Units that stories are told of, by site. Their tags follow: the first site's are 1001 and up, the second's 1011 and up. */
const OF_STORIES: Readonly<Record<number, readonly Fixed[]>> = {
  0: [
    fixed('rack', 'Low-temperature rack', ['R-404A', 260]),
    fixed('rack', 'Medium-temperature rack', ['R-449A', 220]),
    fixed('rack', 'Dairy rack', ['R-404A', 180]),
    fixed('rooftop', 'Rooftop, sales floor', ['R-410A', 24]),
  ],
  1: [fixed('rack', 'Rack A', ['R-448A', 300]), fixed('rooftop', 'Rooftop, sales floor', ['R-22', 32])],
  2: [fixed('cold-room', 'Freezer room', ['R-448A', 46]), fixed('walk-in', 'Walk-in cooler', ['R-404A', 14])],
  11: [fixed('cold-room', 'Cutting room', ['R-449A', 38]), fixed('walk-in', 'Hanging room', ['R-404A', 13])],
  13: [
    fixed('chiller', 'Chiller, plant room', ['R-134a', 240]),
    fixed('vrf', 'Variable-flow system, guest wing', ['R-410A', 36]),
  ],
  15: [fixed('process', 'Mould cooling', ['R-134a', 90]), fixed('process', 'Press cooling', ['R-22', 96])],
};

interface Maker {
  readonly moments: Moments;
  readonly chance: Chance;
}

/** A customer's sites are told apart by their town, and by their street where one has several in a town. */
function siteName(
  customer: string,
  sites: number,
  where: { town: string; street: string; taken: Set<string> },
): string {
  const { town, street, taken } = where;
  const name = [sites === 1 ? customer : `${customer}, ${town}`, `${customer}, ${street}`].find(
    (one) => !taken.has(one),
  );
  const chosen = name ?? `${customer}, ${street}, ${town}`;
  taken.add(chosen);
  return chosen;
}

function siteOf(customer: Site['customer'], named: CustomerName, given: Maker & { taken: Set<string> }): Site {
  const { moments, chance, taken } = given;
  const round = chance.int(0, ROUNDS.length - 1);
  const town = chance.pick(ROUNDS[round] ?? []);
  const street = chance.pick(STREETS);
  const near = (degrees: number): number => Math.round((degrees + (chance.next() - 0.5) * 0.02) * 1e4) / 1e4;
  return {
    id: moments.id(moments.at(-1095, 0), chance),
    customer,
    driver: DRIVERS[round] ?? 'technician',
    made: {
      name: siteName(named.name, named.sites, { town: town.name, street, taken }),
      address: `${chance.int(2, 390)} ${street}, ${town.name}`,
      timeZone: 'America/Denver',
      elevationM: town.elevationM,
      coordinates: { latitude: near(town.latitude), longitude: near(town.longitude) },
      accessNotes: chance.pick(ACCESS),
      contact: { name: named.contact, phone: `555 0${chance.int(100, 199)}` },
    },
  };
}

export function sitesOf(given: Maker): Site[] {
  const { moments, chance } = given;
  const taken = new Set<string>();
  return CUSTOMERS.flatMap((named) => {
    const { name, contact } = named;
    const customer = { id: moments.id(moments.at(-1095, 0), chance), name, contact };
    return Array.from({ length: named.sites }, () => siteOf(customer, named, { ...given, taken }));
  });
}

const tradeOf = (site: Site): CustomerName['trade'] =>
  CUSTOMERS.find(({ name }) => name === site.customer.name)?.trade ?? 'building';

/** What stands at each site, so that all of them together are `UNITS`. */
function outfits(sites: readonly Site[], chance: Chance): (Fixed | KindName)[][] {
  const all = sites.map((site, at): (Fixed | KindName)[] => [
    ...(OF_STORIES[at] ?? chance.pick(OUTFITS[tradeOf(site)])),
  ]);
  const order = chance.shuffled([...all.keys()]).filter((at) => OF_STORIES[at] === undefined);
  const count = (): number => all.reduce((sum, outfit) => sum + outfit.length, 0);
  for (let turn = 0; count() !== UNITS; turn++) {
    const outfit = all[order[turn % order.length] ?? 0] ?? [];
    if (count() < UNITS && outfit.length < 9) outfit.push('split');
    else if (count() > UNITS && outfit.length > 1) outfit.pop();
  }
  return all;
}

/** Two of a kind at one site are told apart. */
function named(words: string, taken: Set<string>): string {
  let name = words;
  for (let nth = 2; taken.has(name); nth++) name = `${words}, no. ${nth}`;
  taken.add(name);
  return name;
}

function madeUp(kind: KindName, chance: Chance): Fixed {
  const { words, gases } = KINDS[kind];
  return { kind, description: chance.pick(words), refrigerant: chance.pick(gases), pounds: chargeOf(kind, chance) };
}

export function fleetOf(given: Maker): Unit[] {
  const { moments, chance } = given;
  const sites = sitesOf(given);
  return outfits(sites, chance).flatMap((outfit, at) => {
    const site = sites[at];
    if (!site) return [];
    const taken = new Set<string>();
    return outfit.map((thing, nth): Unit => {
      const made = typeof thing === 'string' ? madeUp(thing, chance) : thing;
      const id = (): string => moments.id(moments.at(-1095, 0), chance);
      return {
        ...made,
        description: named(made.description, taken),
        id: id(),
        circuitId: id(),
        tag: String(FIRST_TAG + at * 10 + nth),
        site,
        installedOn: moments.day(-chance.int(1200, 5200)),
        ofStory: typeof thing !== 'string',
      };
    });
  });
}
