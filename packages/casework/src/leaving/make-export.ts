/** Everything of a contractor, as of one moment, into one zip. */
import { PARCEL_FORMAT, PARCEL_KEPT_DAYS, ParcelSettings } from '@ullage/contracts';
import type { ParcelManifest } from '@ullage/contracts';
import type { TenantModel, Tx } from '@ullage/database';
import type { World } from '../office.ts';
import { CSV_MARK, csvLine } from '../files/csv.ts';
import type { Cell } from '../files/csv.ts';
import { toDate } from '../pipeline/case.ts';
import { ACCOUNTS, BOOKS, HISTORY, PEOPLE, PHOTOS } from './history.sql.ts';
import type { Hold } from './hold.ts';
import { PartsOut } from './parts.ts';
import type { ParcelRef } from './parts.ts';
import { readme } from './readme.ts';
import { rowsOf } from './rows.ts';
import { TABLES } from './tables.sql.ts';
import type { Table } from './table.sql.ts';
import { ZipOut } from './zip-out.ts';

const AN_HOUR_MS = 3_600_000;
const DAY_MS = 86_400_000;
const PHOTO_ENDINGS: Readonly<Record<string, string>> = {
  'image/jpeg': 'jpg',
  'image/png': 'png',
  'image/webp': 'webp',
};
export const photoName = (hash: string, mediaType: string): string =>
  `photos/${hash}.${PHOTO_ENDINGS[mediaType] ?? 'jpg'}`;
export const smallName = (hash: string): string => `small/${hash}.webp`;

async function* tableOf(tx: Tx, { heads, query }: Table): AsyncGenerator<Uint8Array> {
  yield Buffer.from(`${CSV_MARK}${csvLine(heads)}`);
  for await (const lines of rowsOf(tx, query))
    yield Buffer.from(lines.map((line) => csvLine(JSON.parse(line) as Cell[])).join(''));
}

/** Makes it, replacing what an earlier try had put down. @throws TooLarge, Lost, Interrupted */
export async function makeExport(world: World, ref: ParcelRef, hold: Hold): Promise<void> {
  const { tenantId, id } = ref;
  const { database } = world;
  await database.inTenant(tenantId, (tx) => tx.parcelPart.deleteMany({ where: { tenantId, parcelId: id } }));
  const parts = new PartsOut(world, ref);
  const madeAt = world.now();
  const zip = new ZipOut(toDate(madeAt), (piece) => parts.write(piece));
  const manifest = await database.inTenant(tenantId, (tx) => fill(tx, { tenantId, madeAt, zip, hold }), {
    snapshot: true,
    timeoutMs: AN_HOUR_MS,
  });
  const digest = await parts.end();
  const now = toDate(world.now());
  const { name, accounts } = manifest;
  await database.inTenant(tenantId, (tx) =>
    tx.parcel.updateMany({
      where: { tenantId, id, state: 'working' },
      data: {
        state: 'done',
        step: null,
        bytes: parts.bytes,
        digest,
        manifest: { name, madeAt, accounts },
        endedAt: now,
        expiresAt: new Date(now.getTime() + PARCEL_KEPT_DAYS * DAY_MS),
      },
    }),
  );
}

interface Filling {
  readonly tenantId: string;
  readonly madeAt: string;
  readonly zip: ZipOut;
  readonly hold: Hold;
}
async function fill(tx: Tx, of: Filling): Promise<ParcelManifest> {
  const { tenantId, madeAt, zip, hold } = of;
  const tenant = await tx.tenant.findUniqueOrThrow({ where: { id: tenantId } });
  const feed = await tx.feedCounter.findUniqueOrThrow({ where: { tenantId } });
  const photos = await tx.blob.count({ where: { tenantId, state: 'complete' } });
  const total = photos + TABLES.length + 4;
  let done = 0;
  const next = (step: string): Promise<void> => hold.say(step, done++, total);
  const { name } = tenant;
  await zip.add('README.txt', [Buffer.from(readme({ name, madeAt }))]);
  for (const table of TABLES) {
    await next('tables');
    await zip.add(table.name, tableOf(tx, table));
  }
  const counts = { history: 0, people: 0, photos };
  async function* jsonLines(query: string, count: (lines: number) => void): AsyncGenerator<Uint8Array> {
    for await (const lines of rowsOf(tx, query)) {
      count(lines.length);
      yield Buffer.from(`${lines.join('\n')}\n`);
    }
  }
  await next('people');
  await zip.add(
    'people.jsonl',
    jsonLines(PEOPLE, (lines) => (counts.people += lines)),
  );
  await next('photos');
  await zip.add(
    'photos.jsonl',
    jsonLines(PHOTOS, () => undefined),
  );
  await addPhotos(tx, of, () => next('photos'));
  await next('history');
  await zip.add(
    'history.jsonl',
    jsonLines(HISTORY, (lines) => (counts.history += lines)),
  );
  await next('books');
  await zip.add(
    'books.jsonl',
    jsonLines(BOOKS, () => undefined),
  );
  const accounts = await accountsOf(tx);
  const manifest: ParcelManifest = {
    format: PARCEL_FORMAT,
    product: 'Ullage',
    madeAt,
    name,
    settings: settingsOf(tenant),
    feed: { epoch: feed.epoch, number: Number(feed.number) },
    counts,
    accounts,
    files: zip.files,
  };
  await zip.add('manifest.json', [Buffer.from(`${JSON.stringify(manifest, null, 2)}\n`)]);
  await zip.end();
  return manifest;
}

/** What decides how figures are read and shown. */
function settingsOf({ shopExcessKpa, ...tenant }: TenantModel): ParcelManifest['settings'] {
  const { locale, timeZone, massUnit, pressureUnit, temperatureUnit, vacuumUnit, gwpSet, currency, country } = tenant;
  const units = { massUnit, pressureUnit, temperatureUnit, vacuumUnit, gwpSet };
  return ParcelSettings.parse({
    ...units,
    ...{ locale, timeZone, currency, country, shopExcessKpa: Number(shopExcessKpa) },
  });
}

async function accountsOf(tx: Tx): Promise<ParcelManifest['accounts']> {
  const accounts: ParcelManifest['accounts'] = [];
  for await (const lines of rowsOf(tx, ACCOUNTS))
    accounts.push(...lines.map((line) => JSON.parse(line) as ParcelManifest['accounts'][number]));
  return accounts;
}

/** One photo in memory at a time. */
async function addPhotos(tx: Tx, { tenantId, zip }: Filling, next: () => Promise<void>): Promise<void> {
  let after = '';
  for (;;) {
    const rows = await tx.blob.findMany({
      where: { tenantId, state: 'complete', hash: { gt: after } },
      select: { hash: true, mediaType: true, thumbnail: true },
      orderBy: { hash: 'asc' },
      take: 50,
    });
    for (const { hash, mediaType, thumbnail } of rows) {
      await next();
      const chunks = await tx.blobChunk.findMany({ where: { tenantId, hash }, orderBy: { number: 'asc' } });
      const content = chunks.map((chunk) => chunk.content);
      await zip.add(photoName(hash, mediaType ?? ''), content, { packed: true });
      if (thumbnail) await zip.add(smallName(hash), [thumbnail], { packed: true });
    }
    const last = rows.at(-1);
    if (!last) return;
    after = last.hash;
  }
}
