/** Customers, places and people of the full demo. All of them are invented. */

/** What a customer runs, and so what stands at its sites. */
export type Trade = 'grocer' | 'cold-store' | 'kitchen' | 'building' | 'works';
export interface CustomerName {
  readonly name: string;
  readonly trade: Trade;
  readonly sites: number;
  readonly contact: string;
}
const row = (name: string, trade: Trade, [sites, contact]: readonly [number, string]): CustomerName => ({
  name,
  trade,
  sites,
  contact,
});
/** The first five are those that the stories are told of. */
export const CUSTOMERS: readonly CustomerName[] = [
  row('Quillon Markets', 'grocer', [6, 'Hester Bramwell']),
  row('Sallowfield Grocers', 'grocer', [5, 'Ivo Lindqvist']),
  row('Harl & Daughters Butchers', 'cold-store', [2, 'Greta Harl']),
  row('Ostrava Hall Hotel', 'building', [2, 'Milena Kopec']),
  row('Pinnock Plastics', 'works', [2, 'Rufus Pinnock']),
  row('Dunnet Fresh', 'grocer', [6, 'Aila Dunnet']),
  row('Wold Corner Stores', 'grocer', [5, 'Piers Mallory']),
  row('Larch Street Pantry', 'grocer', [3, 'Odile Ferrant']),
  row('Kestrel Row Foods', 'grocer', [3, 'Jonas Trevelyan']),
  row('Brackwater Cold Storage', 'cold-store', [3, 'Signe Maddox']),
  row('Tern Island Fish', 'cold-store', [2, 'Bram Oakeley']),
  row('Fallow Creamery', 'cold-store', [2, 'Hanne Wilder']),
  row('Orchard Gate Packing', 'cold-store', [2, 'Cosmo Leary']),
  row('Nettlebed Bakery', 'kitchen', [3, 'Una Sprague']),
  row('Copper Ladle', 'kitchen', [3, 'Dario Venn']),
  row('Moth & Lantern', 'kitchen', [2, 'Elke Sandoval']),
  row('Saffron Yard', 'kitchen', [2, 'Priya Ketteridge']),
  row('Blue Heron Diner', 'kitchen', [2, 'Walt Inskip']),
  row('Cinderhill School Kitchens', 'kitchen', [3, 'Nan Aldous']),
  row('Tollgate Tavern', 'kitchen', [1, 'Rex Ombler']),
  row('Gilt Edge Catering', 'kitchen', [1, 'Mabel Strand']),
  row('Ashlar County Offices', 'building', [3, 'Corin Blakeway']),
  row('Merrow Clinic', 'building', [2, 'Dr Leda Farrow']),
  row('Stonecrop Library', 'building', [1, 'Ansel Pryor']),
  row('Halcyon Court Apartments', 'building', [2, 'Tova Brandreth']),
  row('Verge Data Rooms', 'building', [2, 'Simeon Adair']),
  row('Lantern Theatre', 'building', [1, 'Bea Winslade']),
  row('Peregrine Hills Church', 'building', [1, 'Amos Whitlock']),
  row('Ravensworth Academy', 'building', [2, 'Isolde Kemp']),
  row('Marrowfield Dental', 'building', [1, 'Dr Otto Crane']),
  row('Hollin Print Works', 'works', [2, 'Fenna Dyer']),
  row('Three Wells Brewing', 'works', [2, 'Magnus Orr']),
  row('Ambry Pharmaceutics', 'works', [2, 'Cleo Hartnell']),
  row('Sedge River Ice Rink', 'works', [1, 'Lars Wetherby']),
  row('Flint & Fern Florists', 'kitchen', [3, 'Rosalind Tay']),
];

/** A round of towns that one technician drives. */
export interface Town {
  readonly name: string;
  readonly latitude: number;
  readonly longitude: number;
  readonly elevationM: number;
}
const town = (name: string, elevationM: number, [latitude, longitude]: readonly [number, number]): Town => ({
  name,
  latitude,
  longitude,
  elevationM,
});
export const ROUNDS: readonly (readonly Town[])[] = [
  [town('Harrowgate Flats', 1605, [39.752, -104.99]), town('Millrace', 1600, [39.77, -104.97])],
  [town('Ibis Crossing', 1485, [39.955, -104.78]), town('Quill Junction', 1500, [39.93, -104.81])],
  [town('Lower Sedge', 1555, [40.02, -105.08]), town('Upper Sedge', 1640, [40.05, -105.11])],
  [town('Marrowfield', 1660, [39.62, -105.02]), town('Cinder Bluff', 1710, [39.6, -104.98])],
  [town('Tallow Creek', 1700, [39.68, -104.79]), town('Ashlar', 1690, [39.7, -104.76])],
  [town('Peregrine Hills', 1745, [39.82, -105.15]), town('Three Wells', 1690, [39.85, -105.12])],
];
export const STREETS = [
  'Weir Road',
  'Tannery Row',
  'Chandler Street',
  'Old Mill Lane',
  'Furlong Avenue',
  'Candle Court',
  'Rookery Road',
  'Bellows Street',
  'Harvest Way',
  'Cooper’s Rise',
  'Lantern Street',
  'Thistle Lane',
  'Granary Square',
  'Ferry Road',
] as const;
export const ACCESS = [
  'Ring at the loading dock.',
  'Roof hatch behind the stock room; key at the desk.',
  'Sign in at reception, badge back at the end.',
  'Plant room in the basement; two people.',
  'Before 11 only: kitchen in use after that.',
  'Gate code from the contact, changed each month.',
  'Ladder needed; park in the yard.',
] as const;

/** Technicians hired for the full demo, each with a round. Nobody prints a password for them. */
export const TECHNICIANS = [
  { name: 'Ambrose Quill', certificate: 'universal' },
  { name: 'Sunniva Dahl', certificate: 'universal' },
  { name: 'Teodor Rask', certificate: 'II' },
  { name: 'Marisol Greave', certificate: 'universal' },
  { name: 'Ewan Tolliver', certificate: 'II' },
] as const;
export type Hired = (typeof TECHNICIANS)[number]['name'];
/** Under which somebody hired is known to the firm. */
export const emailOf = (name: string): string => `${name.toLowerCase().replace(' ', '.')}@heronvale.example`;
/** Who drives the rounds, in their order: the technician who signs in, then those hired. */
export const DRIVERS = ['technician', ...TECHNICIANS.map(({ name }) => name)] as const;
export type Driver = (typeof DRIVERS)[number];
/** Who comes along: the second man, and the apprentice, who works beside a certified technician only. */
export const HELPERS = ['Odell Marsh', 'Juno Pell'] as const;
export type Helper = (typeof HELPERS)[number];
export type PersonKey = Driver | Helper;
