import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

const root = fileURLToPath(new URL('..', import.meta.url));
const withServer = ['tests/**/*.pg.test.ts', 'packages/*/src/**/*.pg.test.ts', 'apps/*/src/**/*.pg.test.ts'];

export default defineConfig({
  root,
  cacheDir: 'node_modules/.cache/vite',
  test: {
    reporters: ['default', './tests/support/summary-reporter.ts'],
    passWithNoTests: false,
    allowOnly: !process.env.CI,
    maxWorkers: 2,
    fsModuleCache: false, // two runs at once: one clears it under the other
    projects: [
      {
        extends: true,
        test: {
          name: 'pure',
          include: [
            'packages/*/src/**/*.test.ts',
            'apps/*/src/**/*.test.ts',
            'prisma/**/*.test.ts',
            'tests/tooling/**/*.test.ts',
            'tests/reference/**/*.test.ts',
            'tests/sync/**/*.test.ts',
          ],
          exclude: ['**/*.pg.test.ts', '**/node_modules/**'],
          environment: 'node',
        },
      },
      {
        extends: true,
        test: {
          name: 'postgres',
          include: withServer,
          exclude: ['**/node_modules/**'],
          environment: 'node',
          globalSetup: ['tests/support/postgres.global.ts'],
          pool: 'forks',
          testTimeout: 120_000,
          hookTimeout: 60_000,
        },
      },
    ],
  },
});
