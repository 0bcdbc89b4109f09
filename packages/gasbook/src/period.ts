import type { AccountKind } from './account.ts';

/** Grams of one refrigerant that went from accounts of one kind to accounts of another, before a period or within it. */
export interface PeriodFlow {
  readonly refrigerant: string;
  readonly from: AccountKind;
  readonly to: AccountKind;
  /** Whole grams, above zero. */
  readonly grams: number;
  readonly when: 'before' | 'within';
  /** It takes back what had been entered the other way round. */
  readonly undoes: boolean;
}
/** Full charges of all circuits of one refrigerant that were in the books at both ends of the period, in whole grams. */
export interface FullCharges {
  readonly opening: number;
  readonly closing: number;
}
export interface Held {
  readonly cylinders: number;
  readonly circuits: number;
}
/** What the ledger says left, against what a stocktaking would conclude, and why the two differ. Grams; may be below zero. */
export interface MassBalance {
  /** What is in cylinders now is so much less than at the beginning. */
  readonly inventoryFell: number;
  /** Bought, found when the books met it, or from others, less what went to others. */
  readonly acquired: number;
  readonly disbursed: number;
  /** The full charges of the circuits in the books grew by so much. */
  readonly fullChargeRose: number;
  readonly emissions: number;
}
/** The parts of ledger emissions less mass-balance emissions; they add up to it. */
export interface Difference {
  readonly total: number;
  /** Gas that came out of discrepancy, less what went into it. */
  readonly outOfDiscrepancy: number;
  /** Circuits fell so much further below their full charge: the stocktaking takes them for full. */
  readonly furtherBelowFull: number;
}
/** One refrigerant over a period, in whole grams. What was taken back is not counted. */
export interface PeriodBook {
  readonly refrigerant: string;
  readonly opening: Held;
  readonly closing: Held;
  /** Gas that was there before the books met it. */
  readonly broughtIn: number;
  readonly purchased: number;
  /** From others, less what went to them. */
  readonly fromOthers: number;
  readonly charged: number;
  readonly recovered: number;
  /** To reclaimers and destroyers. */
  readonly sent: number;
  readonly emissions: { readonly leaked: number; readonly service: number; readonly total: number };
  /** To discrepancy, less what came from it. */
  readonly missing: number;
  readonly massBalance: MassBalance;
  readonly difference: Difference;
}

/** What was moved from one kind to another, less what was taken back of it. */
const moved = (flows: readonly PeriodFlow[], from: AccountKind, to: AccountKind): number => {
  let grams = 0;
  for (const flow of flows) {
    if (!flow.undoes && flow.from === from && flow.to === to) grams += flow.grams;
    if (flow.undoes && flow.from === to && flow.to === from) grams -= flow.grams;
  }
  return grams;
};
/** By how much all accounts of a kind together changed. */
const change = (flows: readonly PeriodFlow[], kind: AccountKind): number => {
  let grams = 0;
  for (const flow of flows) {
    if (flow.to === kind) grams += flow.grams;
    if (flow.from === kind) grams -= flow.grams;
  }
  return grams + 0; // never -0
};

function bookOf(refrigerant: string, flows: readonly PeriodFlow[], full: FullCharges): PeriodBook {
  const before = flows.filter(({ when }) => when === 'before');
  const within = flows.filter(({ when }) => when === 'within');
  const opening = { cylinders: change(before, 'cylinder'), circuits: change(before, 'circuit') };
  const rose = { cylinders: change(within, 'cylinder'), circuits: change(within, 'circuit') };
  const out = (kind: AccountKind): number => 0 - change(within, kind);
  const leaked = change(within, 'atmosphere');
  const service = change(within, 'service-loss');
  const sent = change(within, 'reclaimer') + change(within, 'destroyer');
  const acquired = out('supplier') + out('opening') + out('other-party');
  const fullChargeRose = full.closing - full.opening;
  // After 40 CFR 98.303(a), equation DD-1: the decrease of stock, plus what was acquired, less what
  // was disbursed, less the net increase of the equipment's capacity, which is a circuit's full charge.
  const emissions = 0 - rose.cylinders + acquired - sent - fullChargeRose;
  return {
    refrigerant,
    opening,
    closing: { cylinders: opening.cylinders + rose.cylinders, circuits: opening.circuits + rose.circuits },
    broughtIn: out('opening'),
    purchased: out('supplier'),
    fromOthers: out('other-party'),
    charged: moved(within, 'cylinder', 'circuit'),
    recovered: moved(within, 'circuit', 'cylinder'),
    sent,
    emissions: { leaked, service, total: leaked + service },
    missing: change(within, 'discrepancy'),
    massBalance: { inventoryFell: 0 - rose.cylinders, acquired, disbursed: sent, fullChargeRose, emissions },
    difference: {
      total: leaked + service - emissions,
      outOfDiscrepancy: out('discrepancy'),
      furtherBelowFull: fullChargeRose - rose.circuits,
    },
  };
}

/**
 * The books of a period, one refrigerant a line, by name. The year's emissions are what came to atmosphere and service
 * loss; they agree with the mass balance up to the change of discrepancy and of (full charge less circuit balance).
 */
export function periodBooks(flows: readonly PeriodFlow[], fullCharges: ReadonlyMap<string, FullCharges>): PeriodBook[] {
  const byGas = Map.groupBy(flows, ({ refrigerant }) => refrigerant);
  const none = { opening: 0, closing: 0 };
  return [...byGas]
    .map(([refrigerant, own]) => bookOf(refrigerant, own, fullCharges.get(refrigerant) ?? none))
    .sort((a, b) => (a.refrigerant < b.refrigerant ? -1 : 1));
}
