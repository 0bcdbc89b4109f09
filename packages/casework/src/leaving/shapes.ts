/** A file on its way to whoever asked for it. */
export interface ExportFile {
  readonly bytes: number;
  readonly name: string;
  readonly content: AsyncIterable<Uint8Array>;
}
