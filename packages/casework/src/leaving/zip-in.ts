/**
 * Reads a zip from outside (PKWARE APPNOTE 6.3: 4.3.7 local header, 4.3.12 central directory, 4.3.16 its end). What it holds
 * is told by the central directory alone; nothing is unfolded beyond the size that was said there, and nothing of it becomes
 * a name on a disk.
 */
import { PARCEL_LIMITS } from '@ullage/contracts';
import { Inflate } from 'fflate';
import { BadFile } from './bad-file.ts';

/** Gives so many bytes from a place on; fewer only at the end. */
export type ReadAt = (from: number, length: number) => Promise<Uint8Array>;
interface Entry {
  readonly name: string;
  readonly method: number;
  readonly packed: number;
  readonly bytes: number;
  readonly from: number;
}
const WHOLE = 'The file';
const END = 0x06054b50;
const CENTRAL = 0x02014b50;
const LOCAL = 0x04034b50;
const END_BYTES = 22;
const CENTRAL_BYTES = 46;
const LOCAL_BYTES = 30;
const DIRECTORY_MAX = 64 * 1024 * 1024;
const STORED = 0;
const DEFLATED = 8;
/** What can unfold a thousandfold is taken in small bites. */
const BITE = 4096;
const PIECE = 256 * 1024;

const viewOf = (bytes: Uint8Array): DataView => new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
const cut = (): BadFile => new BadFile(WHOLE, 'Is no whole zip: it was cut off or changed. Download it again.');

export class ZipIn {
  readonly #read: ReadAt;
  readonly #entries: ReadonlyMap<string, Entry>;
  private constructor(read: ReadAt, entries: ReadonlyMap<string, Entry>) {
    this.#read = read;
    this.#entries = entries;
  }

  /** @throws BadFile for what is no zip, cut off, or beyond the limits */
  static async open(read: ReadAt, size: number): Promise<ZipIn> {
    const tail = await read(Math.max(0, size - END_BYTES), END_BYTES);
    if (tail.length < END_BYTES || viewOf(tail).getUint32(0, true) !== END) throw cut();
    const end = viewOf(tail);
    const [count, bytes, from] = [end.getUint16(10, true), end.getUint32(12, true), end.getUint32(16, true)];
    if (from + bytes + END_BYTES !== size || bytes > DIRECTORY_MAX) throw cut();
    return new ZipIn(read, entriesOf(await read(from, bytes), count));
  }

  get names(): string[] {
    return [...this.#entries.keys()];
  }
  has(name: string): boolean {
    return this.#entries.has(name);
  }

  /** A file's bytes, piece by piece. @throws BadFile when it is not there, or not as long as was said */
  async *content(name: string): AsyncGenerator<Uint8Array> {
    const entry = this.#entries.get(name);
    if (!entry) throw new BadFile(name, 'Is missing. Download the file again.');
    let bytes = 0;
    for await (const piece of this.#unfolded(entry)) {
      bytes += piece.length;
      if (bytes > entry.bytes) break;
      yield piece;
    }
    if (bytes !== entry.bytes) throw new BadFile(name, 'Is longer or shorter than the zip says.');
  }

  async *#unfolded(entry: Entry): AsyncGenerator<Uint8Array> {
    if (entry.method === STORED) {
      yield* this.#packed(entry);
      return;
    }
    let ready: Uint8Array[] = [];
    const inflate = new Inflate((piece) => ready.push(piece));
    for await (const piece of this.#packed(entry))
      for (let at = 0; at < piece.length; at += BITE) {
        try {
          inflate.push(piece.subarray(at, at + BITE));
        } catch {
          throw new BadFile(entry.name, 'Cannot be unpacked: the file was changed.');
        }
        yield* ready;
        ready = [];
      }
  }

  async *#packed(entry: Entry): AsyncGenerator<Uint8Array> {
    const head = await this.#read(entry.from, LOCAL_BYTES);
    if (head.length < LOCAL_BYTES || viewOf(head).getUint32(0, true) !== LOCAL) throw cut();
    const from = entry.from + LOCAL_BYTES + viewOf(head).getUint16(26, true) + viewOf(head).getUint16(28, true);
    for (let at = 0; at < entry.packed; at += PIECE) {
      const wanted = Math.min(PIECE, entry.packed - at);
      const piece = await this.#read(from + at, wanted);
      if (piece.length < wanted) throw cut();
      yield piece;
    }
  }
}

function entriesOf(directory: Uint8Array, count: number): Map<string, Entry> {
  const entries = new Map<string, Entry>();
  const view = viewOf(directory);
  let unfolded = 0;
  for (let at = 0; at < directory.length;) {
    if (at + CENTRAL_BYTES > directory.length || view.getUint32(at, true) !== CENTRAL) throw cut();
    const entry = entryAt(directory, view, at);
    if (entries.has(entry.name)) throw new BadFile(entry.name, 'Is there twice.');
    entries.set(entry.name, entry);
    unfolded += entry.bytes;
    if (unfolded > PARCEL_LIMITS.unfoldedBytes) throw new BadFile(WHOLE, 'Unfolds to more than 4 GB.');
    if (entries.size > PARCEL_LIMITS.files) throw new BadFile(WHOLE, 'Holds more than 50,000 files.');
    at += CENTRAL_BYTES + view.getUint16(at + 28, true) + view.getUint16(at + 30, true) + view.getUint16(at + 32, true);
  }
  // The count has sixteen bits.
  if (entries.size % 65_536 !== count) throw cut();
  return entries;
}

function entryAt(directory: Uint8Array, view: DataView, at: number): Entry {
  const named = directory.subarray(at + CENTRAL_BYTES, at + CENTRAL_BYTES + view.getUint16(at + 28, true));
  const name = new TextDecoder().decode(named);
  const flags = view.getUint16(at + 8, true);
  const method = view.getUint16(at + 10, true);
  if ((flags & 1) === 1) throw new BadFile(name, 'Is encrypted. Give the file as it was downloaded.');
  if (method !== STORED && method !== DEFLATED) throw new BadFile(name, 'Is packed in a way that is not read here.');
  return {
    name,
    method,
    packed: view.getUint32(at + 20, true),
    bytes: view.getUint32(at + 24, true),
    from: view.getUint32(at + 42, true),
  };
}
