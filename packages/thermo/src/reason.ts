/** One step of a calculation that a person can check with a pencil. */
export interface Reason {
  readonly text: string;
  /** A published source, or "common practice". */
  readonly source: string;
}

/** A number for people: at most `places` digits after the point. */
export const figure = (value: number, places = 2): string => Number(value.toFixed(places)).toString();
