/**
 * What a person feels of each main page: when its largest part stands, whether it jumps, how long it takes to react, how
 * much script it loads. Times are printed, for they are the machine's; that nothing jumps is asserted.
 */
import { join } from 'node:path';
import type { Page } from '@playwright/test';
import { startPostgres } from '@ullage/cli/postgres';
import pg from 'pg';
import { expect, PHONE, signedIn, test } from './fixtures.ts';
import { aFirm } from './parts/firm.ts';

/** "Good" by the Core Web Vitals (web.dev/articles/cls). */
const SHIFT_AT_MOST = 0.1;
const LIST = 10_000;
/** A page of the list with its frame. A list that were rendered whole would have twenty times as many. */
const NODES_AT_MOST = 6_000;
const ROWS_AT_MOST = 100;
const PAGE_BYTES_AT_MOST = 1_500_000;

interface Felt {
  readonly shift: number;
  readonly largestMs: number;
  readonly reactsMs: number;
}
declare global {
  interface Window {
    felt: { shift: number; largestMs: number; reactsMs: number };
  }
}
interface ShiftEntry extends PerformanceEntry {
  readonly value: number;
  readonly hadRecentInput: boolean;
}

/** Counts from the first byte of every page on. */
async function watch(page: Page): Promise<void> {
  await page.addInitScript(() => {
    const felt = { shift: 0, largestMs: 0, reactsMs: 0 };
    window.felt = felt;
    const see = (type: string, each: (entry: PerformanceEntry) => void, more: object = {}): void => {
      new PerformanceObserver((list) => list.getEntries().forEach(each)).observe({ type, buffered: true, ...more });
    };
    see('largest-contentful-paint', (entry) => (felt.largestMs = entry.startTime));
    see('layout-shift', (entry) => {
      const { value, hadRecentInput } = entry as ShiftEntry;
      if (!hadRecentInput) felt.shift += value;
    });
    see('event', (entry) => (felt.reactsMs = Math.max(felt.reactsMs, entry.duration)), { durationThreshold: 16 });
  });
}

const scriptKb = (page: Page): Promise<number> =>
  page.evaluate(() => {
    const loaded = performance.getEntriesByType('resource') as PerformanceResourceTiming[];
    const scripts = loaded.filter(({ name }) => /\.js(\?|$)/.test(name));
    return Math.round(scripts.reduce((all, { encodedBodySize }) => all + encodedBodySize, 0) / 1000);
  });

/** Opens a page as by its address, waits until it rests, presses a key and clicks where nothing happens. */
async function feel(page: Page, path: string): Promise<Felt & { scriptKb: number }> {
  await page.goto(path);
  await page.getByRole('heading', { level: 1 }).first().waitFor();
  await page.waitForLoadState('networkidle');
  await page.keyboard.press('Tab');
  await page.getByRole('heading', { level: 1 }).first().click();
  await page.waitForTimeout(300);
  return { ...(await page.evaluate(() => window.felt)), scriptKb: await scriptKb(page) };
}

function table(title: string, rows: readonly (readonly string[])[]): void {
  const lines = rows.map((row) => row.map((cell, n) => (n === 0 ? cell.padEnd(26) : cell.padStart(12))).join(''));
  process.stdout.write(`${[title, ...lines].join('\n')}\n`);
}

const DESK = [
  '/returns',
  '/calls/new',
  '/units',
  '/cylinders',
  '/books',
  '/attention',
  '/repeats',
  '/gas-used',
  '/settings',
];

test('no main page jumps while it loads', async ({ browser }) => {
  test.setTimeout(240_000);
  const rows: string[][] = [['route', 'CLS', 'LCP ms', 'INP ms', 'script kB']];
  const far: string[] = [];
  const see = async (page: Page, paths: readonly string[]): Promise<void> => {
    await watch(page);
    for (const path of paths) {
      const { shift, largestMs, reactsMs, scriptKb: script } = await feel(page, path);
      const reacts = reactsMs === 0 ? 'under 16' : reactsMs.toFixed(0);
      rows.push([path, shift.toFixed(3), largestMs.toFixed(0), reacts, String(script)]);
      expect(largestMs, `${path} painted nothing`).toBeGreaterThan(0);
      expect(script, `${path} loaded no script`).toBeGreaterThan(0);
      if (shift > SHIFT_AT_MOST) far.push(`${path} ${shift.toFixed(3)}`);
    }
    await page.context().close();
  };
  await see(await signedIn(browser, 'manager'), DESK);
  await see(await signedIn(browser, 'technician', PHONE), ['/field']);
  table('What is felt of each route:', rows);
  expect(far).toEqual([]);
});

/** Circuits of one site, past the commands: what matters here is how many there are. */
async function seed(firm: string): Promise<void> {
  const server = await startPostgres({ home: join(import.meta.dirname, '../../.data/browser/pg') });
  expect(server.how).toBe('borrowed');
  const found = new pg.Client({ connectionString: server.urlFor('ullage') });
  await found.connect();
  const [tenant] = (await found.query<{ id: string }>('SELECT id FROM tenant WHERE name = $1', [firm])).rows;
  const values = [tenant!.id];
  for (const text of [
    `INSERT INTO customer (tenant_id, id, name, created_at) VALUES ($1, uuidv7(), 'Larkspur Foods', now())`,
    `INSERT INTO facility (tenant_id, id, customer_id, name) SELECT $1, uuidv7(), id, name FROM customer WHERE tenant_id = $1`,
    `INSERT INTO site (tenant_id, id, customer_id, facility_id, name, address, time_zone, elevation_m, country, created_at)
       SELECT $1, uuidv7(), customer_id, id, 'Quarry Bend', '14 Quarry Bend, Dunmoor', 'America/Denver', 0, 'US', now()
       FROM facility WHERE tenant_id = $1`,
    `INSERT INTO unit (tenant_id, id, site_id, tag, description, created_at)
       SELECT $1, uuidv7(), id, lpad(n::text, 5, '0'), 'Dairy rack', now() FROM site, generate_series(1, ${LIST}) AS n
       WHERE tenant_id = $1`,
    `INSERT INTO circuit (tenant_id, id, unit_id, letter, refrigerant, use, equipment)
       SELECT $1, uuidv7(), id, 'A', 'R-448A', 'commercial-refrigeration', 'rack' FROM unit WHERE tenant_id = $1`,
  ]) {
    await found.query(text, values);
  }
  await found.end();
}

test('a list of 10,000 is a page of it: few nodes, few bytes, and it scrolls', async ({ browser }) => {
  test.setTimeout(120_000);
  const firm = 'Tern Long Cooling';
  const page = await (await aFirm(browser, firm)).newPage();
  await seed(firm);
  await watch(page);
  const answer = await page.goto('/units');
  await page.waitForLoadState('networkidle');
  const bytes = (await answer!.body()).length;
  const count = () => page.evaluate(() => document.getElementsByTagName('*').length);
  const rows = page.getByRole('main').getByRole('row');
  const nodes = await count();
  expect(await rows.count()).toBeLessThanOrEqual(ROWS_AT_MOST + 1);
  expect(nodes).toBeLessThan(NODES_AT_MOST);
  expect(bytes).toBeLessThan(PAGE_BYTES_AT_MOST);

  const frames = await page.evaluate(
    () =>
      new Promise<number[]>((resolve) => {
        const seen: number[] = [];
        let before = performance.now();
        const each = (now: number): void => {
          seen.push(now - before);
          before = now;
          window.scrollBy(0, 60);
          if (seen.length < 120) requestAnimationFrame(each);
          else resolve(seen.slice(1));
        };
        requestAnimationFrame(each);
      }),
  );
  const slow = frames.filter((took) => took > 34).length;
  table('A list of 10,000, its first page:', [
    ['nodes', String(nodes)],
    ['bytes of the page', String(bytes)],
    ['frames over 34 ms', `${slow} of ${frames.length}`],
    ['longest frame', `${Math.max(...frames).toFixed(0)} ms`],
  ]);

  const first = await rows.nth(1).innerText();
  await page.getByRole('link', { name: 'Next page' }).click();
  await page.waitForURL(/after=/);
  await expect(async () => expect(await rows.nth(1).innerText()).not.toBe(first)).toPass();
  expect(await count()).toBeLessThan(NODES_AT_MOST);
  await page.context().close();
});
