/** Cylinders of the full demo: what each weighs, where it stands, and which one somebody takes. Weights in 0.01 lb. */
import type { CommandBody } from '@ullage/contracts';
import type { Instant } from '@ullage/units';
import type { Chance } from './chance.ts';
import type { Moments } from './moments.ts';

export const hundredths = (pounds: number): number => Math.round(pounds * 100);
/** As a scale of 0.01 lb shows it. */
export const lbOf = (weight: number) => ({ value: (weight / 100).toFixed(2), unit: 'lb' as const });

interface Make {
  readonly gas: string;
  readonly count: number;
  readonly net: number;
  readonly kind: 'refillable' | 'disposable';
}
const made = (gas: string, kind: Make['kind'], [count, net]: readonly [number, number]): Make => ({
  gas,
  kind,
  count,
  net,
});
/** Bought gas, in the order in which it is taken. Below the limit of 49 CFR 173.304a and AHRI Guideline K for each gas. */
const SUPPLY: readonly Make[] = [
  made('R-404A', 'refillable', [4, 100]),
  made('R-404A', 'disposable', [1, 24]),
  made('R-448A', 'refillable', [4, 100]),
  made('R-449A', 'refillable', [3, 100]),
  made('R-507A', 'refillable', [2, 100]),
  made('R-134a', 'refillable', [2, 100]),
  made('R-22', 'refillable', [1, 100]),
  made('R-22', 'disposable', [2, 25]),
  made('R-407C', 'refillable', [1, 100]),
  made('R-407C', 'disposable', [1, 25]),
  made('R-410A', 'disposable', [6, 25]),
  made('R-454B', 'disposable', [2, 20]),
  made('R-513A', 'disposable', [3, 25]),
];
const RECOVERY = 24;
const LABEL_FROM = { N: 20, C: 10 } as const;
const SIZES = {
  refillable: { specification: 'DOT-4BA400', water: 12_300, tare: 5_500, psig: 400 },
  disposable: { specification: 'DOT-39', water: 2_970, tare: 660, psig: undefined },
  recovery: { specification: 'DOT-4BA400', water: 4_760, tare: 2_800, psig: 400 },
} as const;
/** What stays in a cylinder that is called empty. */
const HEEL = 60;
/** Safely below the legal fill of the recovery cylinder for every gas here. */
export const MOST_RECOVERED = 3_000;

export interface Cylinder {
  readonly id: string;
  readonly label: string;
  readonly serial: string;
  readonly kind: 'refillable' | 'disposable' | 'recovery';
  readonly tare: number;
  /** Bought with so much in it. */
  readonly net: number;
  readonly testedMonth: string;
  /** Of bought gas; of a recovery cylinder what was put in first. */
  gas: string | undefined;
  gross: number;
  isHere: boolean;
  /** Location. */
  place: string | undefined;
  busyUntil: Instant;
}
export interface Weighed {
  readonly cylinder: Cylinder;
  readonly before: number;
  readonly after: number;
}
interface Wanted {
  readonly gas: string;
  readonly weight: number;
  readonly from: Instant;
  readonly until: Instant;
  /** Where somebody takes it from if they can. */
  readonly place: string;
}

const stampsOf = ({ kind }: Pick<Cylinder, 'kind'>) => {
  const { specification, water, tare, psig } = SIZES[kind];
  return {
    specification,
    waterCapacity: lbOf(water),
    tare: lbOf(tare),
    ...(psig === undefined ? {} : { servicePressurePsig: psig }),
  };
};
export const registration = (cylinder: Cylinder): CommandBody<'register-cylinder'> => ({
  cylinderId: cylinder.id,
  kind: cylinder.kind,
  ...stampsOf(cylinder),
  serial: cylinder.serial,
  label: cylinder.label,
  testedMonth: cylinder.testedMonth,
});
export const delivery = (cylinder: Cylinder, locationId: string): CommandBody<'record-delivery'> => ({
  supplier: 'Petrel Gas Supply',
  locationId,
  refrigerant: cylinder.gas ?? '',
  state: 'new',
  kind: cylinder.kind === 'disposable' ? 'disposable' : 'refillable',
  ...stampsOf(cylinder),
  net: lbOf(cylinder.net),
  cylinders: [{ cylinderId: cylinder.id, serial: cylinder.serial, label: cylinder.label }],
});

/** Of what comes in of a gas so much is planned with: the rest is heels, and cylinders that are elsewhere just then. */
const PLANNED_SHARE = 0.88;

export class Stock {
  readonly all: readonly Cylinder[];
  readonly #promised = new Map<string, number>();

  constructor(given: { moments: Moments; chance: Chance }) {
    const { moments, chance } = given;
    let serial = 30_400;
    const numbers = { N: LABEL_FROM.N, C: LABEL_FROM.C };
    const make = (kind: Cylinder['kind'], bought?: Make): Cylinder => {
      const letter = bought ? 'N' : 'C';
      const { tare } = SIZES[kind];
      const net = hundredths(bought?.net ?? 0);
      serial += chance.int(3, 40);
      return {
        id: moments.id(moments.at(-1095, 0), chance),
        label: `${letter}-${numbers[letter]++}`,
        serial: `HV-${serial}`,
        kind,
        tare,
        net,
        testedMonth: moments.day(-chance.int(1110, 1500)).slice(0, 7),
        gas: bought?.gas,
        gross: tare + net,
        isHere: false,
        place: undefined,
        busyUntil: '',
      };
    };
    this.all = [
      ...SUPPLY.flatMap((one) => Array.from({ length: one.count }, () => make(one.kind, one))),
      ...Array.from({ length: RECOVERY }, () => make('recovery')),
    ];
  }

  /** Sets gas aside for a visit that is being planned; false when there is not enough left for it. */
  promise(gas: string, weight: number): boolean {
    const own = this.all.filter((one) => one.kind !== 'recovery' && one.gas === gas);
    const bought = own.reduce((sum, { net }) => sum + net, 0);
    const promised = (this.#promised.get(gas) ?? 0) + weight;
    if (promised > bought * PLANNED_SHARE) return false;
    this.#promised.set(gas, promised);
    return true;
  }

  /** A recovery cylinder that is kept for a story. */
  keepFor(nth: number): Cylinder {
    const one = this.all.filter(({ kind }) => kind === 'recovery').at(-1 - nth);
    if (!one) throw new RangeError('there is no such recovery cylinder');
    one.busyUntil = '9';
    return one;
  }

  /**
   * Cylinders to charge a weight from, one after the other, and those of them that have to be bought first.
   * @throws RangeError when the supply of that gas is used up
   */
  draw(wanted: Wanted): { weighed: Weighed[]; bought: Cylinder[] } {
    const weighed: Weighed[] = [];
    const bought: Cylinder[] = [];
    let left = wanted.weight;
    while (left > 0) {
      const cylinder = this.#fullest(wanted);
      if (!cylinder) throw new RangeError(`no ${wanted.gas} is left in stock`);
      if (!cylinder.isHere) bought.push(cylinder);
      cylinder.isHere = true;
      const part = Math.min(left, cylinder.gross - cylinder.tare - HEEL);
      weighed.push({ cylinder, before: cylinder.gross, after: cylinder.gross - part });
      cylinder.gross -= part;
      cylinder.busyUntil = wanted.until;
      left -= part;
    }
    return { weighed, bought };
  }

  /** One's own van first, then what stands elsewhere, then a new one. */
  #fullest({ gas, from, place }: Wanted): Cylinder | undefined {
    const free = this.all.filter(
      (one) => one.kind !== 'recovery' && one.gas === gas && one.busyUntil < from && one.gross - one.tare > HEEL,
    );
    const here = free.filter(({ isHere }) => isHere);
    return here.find((one) => one.place === place) ?? here[0] ?? free[0];
  }

  /** A recovery cylinder with room that holds this gas or nothing; undefined when there is none. */
  recover(wanted: Wanted): Weighed | undefined {
    const free = this.all.filter(
      (one) => one.kind === 'recovery' && one.busyUntil < wanted.from && this.#hasRoom(one, wanted.weight),
    );
    const same = free.filter(({ gas }) => gas === wanted.gas);
    const cylinder =
      same.find(({ place }) => place === wanted.place) ?? same[0] ?? free.find(({ gas }) => gas === undefined);
    if (!cylinder) return undefined;
    const before = cylinder.gross;
    cylinder.gas = wanted.gas;
    cylinder.gross += wanted.weight;
    cylinder.busyUntil = wanted.until;
    return { cylinder, before, after: cylinder.gross };
  }
  #hasRoom = ({ gross, tare }: Cylinder, weight: number): boolean => gross - tare + weight <= MOST_RECOVERED;
}
