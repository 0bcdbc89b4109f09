/** Looks through a whole file from outside before anything of it is applied. */
import { createHash } from 'node:crypto';
import {
  BooksLine,
  HistoryLine,
  isCommandName,
  PARCEL_FORMAT,
  ParcelManifest,
  PersonLine,
  PHOTO_MAX_BYTES,
  PhotoLine,
} from '@ullage/contracts';
import * as z from 'zod';
import { photoType } from '../photos/kind.ts';
import { restored } from '../pipeline/envelope-text.ts';
import { hashOf } from '../pipeline/hash.ts';
import { BadFile } from './bad-file.ts';
import type { Hold } from './hold.ts';
import { linesOf } from './lines.ts';
import { photoName, smallName } from './make-export.ts';
import type { ZipIn } from './zip-in.ts';

const MANIFEST = 'manifest.json';
const MANIFEST_MAX = 32 * 1024 * 1024;
const SMALL_MAX = 1024 * 1024;
/** Nothing else belongs in it. */
const NAMES =
  /^(README\.txt|tables\/[a-z-]{1,40}\.csv|(people|photos|history|books)\.jsonl|photos\/[0-9a-f]{64}\.(jpg|png|webp)|small\/[0-9a-f]{64}\.webp)$/;

async function whole(zip: ZipIn, name: string, atMost: number): Promise<Uint8Array> {
  const pieces: Uint8Array[] = [];
  let bytes = 0;
  for await (const piece of zip.content(name)) {
    bytes += piece.length;
    if (bytes > atMost) throw new BadFile(name, 'Is larger than it can be.');
    pieces.push(piece);
  }
  return Buffer.concat(pieces);
}

/** What the file says of itself. @throws BadFile */
export async function manifestOf(zip: ZipIn): Promise<ParcelManifest> {
  let value: unknown;
  try {
    value = JSON.parse(new TextDecoder('utf-8', { fatal: true }).decode(await whole(zip, MANIFEST, MANIFEST_MAX)));
  } catch (error) {
    if (error instanceof BadFile) throw error;
    throw new BadFile(MANIFEST, 'Is no JSON.');
  }
  const format = z.object({ format: z.int() }).safeParse(value);
  if (format.success && format.data.format !== PARCEL_FORMAT)
    throw new BadFile(MANIFEST, `Format ${format.data.format}: this version reads format ${PARCEL_FORMAT}.`);
  const manifest = ParcelManifest.safeParse(value);
  if (!manifest.success)
    throw new BadFile(MANIFEST, `${manifest.error.issues[0]?.path.join('/') ?? ''}: is not right.`);
  return manifest.data;
}

/** Every file is there, is what the manifest says, and each of its lines is of its shape. @throws BadFile for the first that is not */
export async function checkFile(zip: ZipIn, hold: Hold): Promise<ParcelManifest> {
  const manifest = await manifestOf(zip);
  assertZone(manifest.settings.timeZone);
  const listed = new Set(manifest.files.map(({ name }) => name));
  for (const name of zip.names)
    if (name !== MANIFEST && (!listed.has(name) || !NAMES.test(name))) throw new BadFile(name, 'Does not belong here.');
  for (const name of ['people.jsonl', 'photos.jsonl', 'history.jsonl', 'books.jsonl'])
    if (!listed.has(name)) throw new BadFile(name, 'Is missing. Download the file again.');
  for (const [done, file] of manifest.files.entries()) {
    await hold.say('check', done, manifest.files.length);
    await assertBytes(zip, file);
  }
  await assertLines(zip, manifest, hold);
  return manifest;
}

function assertZone(timeZone: string): void {
  try {
    new Intl.DateTimeFormat('en', { timeZone });
  } catch {
    throw new BadFile(MANIFEST, 'settings/timeZone: is not known here.');
  }
}

async function assertBytes(zip: ZipIn, file: ParcelManifest['files'][number]): Promise<void> {
  const hash = createHash('sha256');
  for await (const piece of zip.content(file.name)) hash.update(piece);
  if (hash.digest('hex') !== file.sha256) throw new BadFile(file.name, 'Was changed since it was exported.');
}

async function assertLines(zip: ZipIn, manifest: ParcelManifest, hold: Hold): Promise<void> {
  const users = await assertPeople(zip, manifest.counts.people);
  await assertPhotos(zip);
  let lines = 0;
  for await (const { line, number } of linesOf('history.jsonl', {
    content: zip.content('history.jsonl'),
    shape: HistoryLine,
  })) {
    await hold.say('check', number, manifest.counts.history + 1);
    const bad = (detail: string): BadFile => new BadFile(`history.jsonl, line ${number}`, detail);
    if (line.what === 'command' || line.what === 'kept') {
      if (!isCommandName(line.kind) && line.what === 'command') throw bad('kind: this office knows no such command.');
      if (!users.has(line.userId)) throw bad('userId: is nobody in people.jsonl.');
      if (hashOf(restored(line.envelope)) !== line.hash) throw bad('envelope: was changed since it came.');
    }
    lines = number;
  }
  if (lines !== manifest.counts.history)
    throw new BadFile('history.jsonl', 'Has not as many lines as the manifest says.');
  for await (const _ of linesOf('books.jsonl', { content: zip.content('books.jsonl'), shape: BooksLine })) void _;
}

async function assertPeople(zip: ZipIn, count: number): Promise<ReadonlySet<string>> {
  const users = new Set<string>();
  const ids = new Set<string>();
  const name = 'people.jsonl';
  for await (const { line, number } of linesOf(name, { content: zip.content(name), shape: PersonLine })) {
    if (ids.has(line.id) || (line.userId !== null && users.has(line.userId)))
      throw new BadFile(`${name}, line ${number}`, 'Is there twice.');
    ids.add(line.id);
    if (line.userId !== null) users.add(line.userId);
  }
  if (ids.size !== count) throw new BadFile(name, 'Has not as many lines as the manifest says.');
  return users;
}

async function assertPhotos(zip: ZipIn): Promise<void> {
  const name = 'photos.jsonl';
  for await (const { line, number } of linesOf(name, { content: zip.content(name), shape: PhotoLine })) {
    const photo = await photoBytes(zip, line);
    const isWhole = createHash('sha256').update(photo).digest('hex') === line.hash && photo.length === line.bytes;
    if (!isWhole || photoType(photo) !== line.mediaType)
      throw new BadFile(`${name}, line ${number}`, 'The photo is not what its name says.');
    if (line.small && photoType(await smallBytes(zip, line)) !== 'image/webp')
      throw new BadFile(`${name}, line ${number}`, 'The small photo is no WebP picture.');
  }
}

export const photoBytes = (zip: ZipIn, { hash, mediaType }: PhotoLine): Promise<Uint8Array> =>
  whole(zip, photoName(hash, mediaType), PHOTO_MAX_BYTES);
export const smallBytes = (zip: ZipIn, { hash }: PhotoLine): Promise<Uint8Array> =>
  whole(zip, smallName(hash), SMALL_MAX);
