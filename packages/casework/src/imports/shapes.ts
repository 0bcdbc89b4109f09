import type { ImportKind } from '@ullage/contracts';

/** A file as it is chosen. Its id is made by whoever sends it: sent again it is the same import. */
export interface ImportGiven {
  readonly id: string;
  readonly kind: ImportKind;
  readonly name: string;
  readonly content: Uint8Array;
}
