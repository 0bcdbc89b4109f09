/** What is wrong with a file that came from outside, and where: for whoever sent it. */
export interface Found {
  /** A file inside, and its line. */
  readonly where: string;
  readonly detail: string;
}
/** A file that cannot be taken over as it is. */
export class BadFile extends Error {
  readonly found: readonly Found[];
  constructor(where: string, detail: string) {
    super(`${where}: ${detail}`);
    this.found = [{ where, detail }];
  }
}
