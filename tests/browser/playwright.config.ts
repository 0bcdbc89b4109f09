import { defineConfig } from '@playwright/test';
import { join } from 'node:path';

/** The whole product, started as anybody starts it, in a data folder of its own with the demo in it. */
export const PORT = 3987;
const root = join(import.meta.dirname, '../..');
const args = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

export default defineConfig({
  testDir: '.',
  outputDir: join(root, '.data/browser-results'),
  snapshotPathTemplate: '{testDir}/snapshots/{arg}{ext}',
  fullyParallel: false,
  workers: 1,
  timeout: 90_000,
  expect: { timeout: 10_000 },
  retries: 0,
  reporter: [['list']],
  forbidOnly: process.env.CI !== undefined,
  use: {
    baseURL: `http://localhost:${PORT}`,
    launchOptions: { executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium', args },
    actionTimeout: 15_000,
    trace: 'retain-on-failure',
    locale: 'en-US',
    timezoneId: 'America/Denver',
    viewport: { width: 1440, height: 900 },
  },
  webServer: {
    command: `"${process.execPath}" tests/browser/serve.ts`,
    cwd: root,
    url: `http://localhost:${PORT}/sign-in`,
    timeout: 300_000,
    gracefulShutdown: { signal: 'SIGTERM', timeout: 20_000 },
    stdout: 'pipe',
    stderr: 'pipe',
  },
});
