export const ACCOUNT_KINDS = [
  'cylinder',
  'circuit',
  'opening',
  'supplier',
  'other-party',
  'reclaimer',
  'destroyer',
  'atmosphere',
  'service-loss',
  'discrepancy',
] as const;
export type AccountKind = (typeof ACCOUNT_KINDS)[number];

export interface Account {
  readonly id: string;
  readonly kind: AccountKind;
}

/** Ids of a contractor's outside accounts that derived postings meet. They may stand below zero; a cylinder may not. */
export interface OutsideAccounts {
  /** Gas that was there before the books began. */
  readonly opening: string;
  readonly supplier: string;
  readonly reclaimer: string;
  readonly destroyer: string;
  readonly atmosphere: string;
  readonly discrepancy: string;
}
