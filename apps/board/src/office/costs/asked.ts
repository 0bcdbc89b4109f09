/** What stands in the address of the manager's screens. */
import { BILLED_ASKED, Id, REPEAT_ORDERS, type BilledAsked, type RepeatOrder } from '@ullage/contracts';
import type { Route } from 'next';

/** IPCC assessment reports, as they are offered. */
export const GWP_NAMES = ['AR4', 'AR5', 'AR6'] as const;
type GwpName = (typeof GWP_NAMES)[number];

export interface RepeatsAsked {
  /** Undefined: the firm's own. */
  readonly gwp?: GwpName | undefined;
  readonly order?: RepeatOrder | undefined;
  readonly after?: string | undefined;
  /** The circuit whose evidence is shown. */
  readonly circuit?: string | undefined;
}
type Said = Readonly<Record<string, string | string[] | undefined>>;
const one = (value: string | string[] | undefined): string => (Array.isArray(value) ? (value[0] ?? '') : (value ?? ''));
const oneOf = <T extends string>(all: readonly T[], said: string): T | undefined => all.find((value) => value === said);
const id = (value: string | string[] | undefined): string | undefined => {
  const said = one(value);
  return Id.safeParse(said).success ? said : undefined;
};

/** What the API would refuse is left out: somebody may have typed the address. */
export const repeatsAsked = (said: Said): RepeatsAsked => ({
  gwp: oneOf(GWP_NAMES, one(said['gwp'])),
  order: oneOf(REPEAT_ORDERS, one(said['order'])),
  after: id(said['after']),
  circuit: id(said['circuit']),
});
export interface GasUsedAsked {
  readonly billed?: BilledAsked | undefined;
  readonly after?: string | undefined;
}
export const gasUsedAsked = (said: Said): GasUsedAsked => ({
  billed: oneOf(BILLED_ASKED, one(said['billed'])),
  after: id(said['after']),
});

export function searchOf(asked: Readonly<Record<string, string | undefined>>): string {
  const said = Object.entries(asked).filter((entry): entry is [string, string] => entry[1] !== undefined);
  return said.length === 0 ? '' : `?${new URLSearchParams(said)}`;
}
export const repeatsPath = ({ gwp, order, after, circuit }: RepeatsAsked, part?: string): Route =>
  `/repeats${searchOf({ gwp, order, after, circuit })}${part === undefined ? '' : `#${part}`}` as Route;
export const gasUsedPath = ({ billed, after }: GasUsedAsked): Route =>
  `/gas-used${searchOf({ billed, after })}` as Route;
export const PRICES_PATH = '/prices' as Route;
