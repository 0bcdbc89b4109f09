import { createHash } from 'node:crypto';
import { Zip, ZipDeflate, ZipPassThrough } from 'fflate';

/** A file as the manifest lists it. */
export interface Packed {
  readonly name: string;
  readonly bytes: number;
  readonly sha256: string;
}
type Bytes = AsyncIterable<Uint8Array> | Iterable<Uint8Array>;

/** Writes a zip file by file; what is ready leaves at once, so that memory holds a piece and never the whole. */
export class ZipOut {
  readonly #zip: Zip;
  readonly #sink: (piece: Uint8Array) => Promise<void>;
  readonly #at: Date;
  #ready: Uint8Array[] = [];
  #fault: Error | undefined;
  readonly files: Packed[] = [];

  /** @param at said of each file */
  constructor(at: Date, sink: (piece: Uint8Array) => Promise<void>) {
    this.#at = at;
    this.#sink = sink;
    this.#zip = new Zip((fault, piece) => {
      if (fault) this.#fault = fault;
      else if (piece.length > 0) this.#ready.push(piece);
    });
  }

  /** `packed`: its bytes are compressed already. */
  async add(name: string, content: Bytes, { packed = false } = {}): Promise<Packed> {
    const entry = packed ? new ZipPassThrough(name) : new ZipDeflate(name, { level: 6 });
    entry.mtime = this.#at;
    this.#zip.add(entry);
    const hash = createHash('sha256');
    let bytes = 0;
    for await (const piece of content) {
      hash.update(piece);
      bytes += piece.length;
      entry.push(piece);
      await this.#flush();
    }
    entry.push(new Uint8Array(0), true);
    await this.#flush();
    const file = { name, bytes, sha256: hash.digest('hex') };
    this.files.push(file);
    return file;
  }

  async end(): Promise<void> {
    this.#zip.end();
    await this.#flush();
  }

  async #flush(): Promise<void> {
    const pieces = this.#ready;
    this.#ready = [];
    if (this.#fault) throw this.#fault;
    for (const piece of pieces) await this.#sink(piece);
  }
}
