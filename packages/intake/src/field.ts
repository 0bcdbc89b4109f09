/** A column as a file may have it. */
export interface Field {
  readonly id: string;
  /** As the screen and every fault call it. */
  readonly label: string;
  /** Without this column nothing can be made of a file. */
  readonly required?: true;
  readonly hint: string;
  /** Other headings people give it. */
  readonly names: readonly string[];
}
