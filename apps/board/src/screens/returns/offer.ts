/** The moment the form is about to ask for, drawn dashed in the circuit's row and on the person's day. */
export interface Offer {
  readonly visitId: string;
  readonly personId: string;
  readonly day: string;
  /** `10:30`, by the site's clock. */
  readonly time: string;
  readonly minutes: number;
  readonly name: string;
  /** Refused already: drawn as such. */
  readonly refused: boolean;
  /** Under the pointer of a drag: its time stands there and not in the week, so that no row grows under the hand. */
  readonly inHand?: boolean;
}
