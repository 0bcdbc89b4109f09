import { z } from 'zod';

export interface Counts {
  readonly passed: number;
  readonly failed: number;
  /** By name, with the reason where one is known. */
  readonly skipped: readonly string[];
}

/** What `tests/support/summary-reporter.ts` writes. */
const VitestSummary = z.object({
  passed: z.int(),
  failed: z.int(),
  skipped: z.array(z.string()),
  errors: z.int(),
});

/** The part of Playwright's JSON report that counts. `flaky` passed only on a second try: that is no pass. */
const BrowserSummary = z.object({
  stats: z.object({ expected: z.int(), unexpected: z.int(), flaky: z.int() }),
  errors: z.array(z.unknown()).default([]),
  suites: z.array(z.unknown()).default([]),
});

const Suite = z.object({
  title: z.string().default(''),
  suites: z.array(z.unknown()).default([]),
  specs: z
    .array(z.object({ title: z.string(), tests: z.array(z.object({ projectName: z.string(), status: z.string() })) }))
    .default([]),
});

/**
 * Counts of a Vitest run by its summary. `code` is how it ended: an error outside every test fails none of them, and
 * must be counted all the same; so must a run that ended before its report.
 */
export function vitestCounts(summary: string | undefined, code: number): Counts {
  if (summary === undefined) return lost('Vitest');
  const { passed, failed, skipped, errors } = VitestSummary.parse(JSON.parse(summary));
  return { passed, failed: failed === 0 && code !== 0 ? Math.max(1, errors) : failed + errors, skipped };
}

/** Counts of a Playwright run by its JSON report. */
export function browserCounts(report: string | undefined, code: number): Counts {
  if (report === undefined) return lost('Playwright');
  const { stats, errors, suites } = BrowserSummary.parse(JSON.parse(report));
  const failed = stats.unexpected + stats.flaky + errors.length;
  const skipped = suites.flatMap((suite) => skippedIn(suite, ''));
  return { passed: stats.expected, failed: failed === 0 && code !== 0 ? 1 : failed, skipped };
}

function skippedIn(raw: unknown, above: string): string[] {
  const { title, suites, specs } = Suite.parse(raw);
  const path = above && title ? `${above} > ${title}` : above || title;
  const own = specs.flatMap((spec) =>
    spec.tests
      .filter(({ status }) => status === 'skipped')
      .map(({ projectName }) => `${path} > ${spec.title} [${projectName}]`),
  );
  return [...own, ...suites.flatMap((suite) => skippedIn(suite, path))];
}

function lost(tool: string): Counts {
  return { passed: 0, failed: 1, skipped: [`${tool}: the run ended before its report`] };
}

export function sum(parts: readonly Counts[]): Counts {
  return {
    passed: parts.reduce((total, part) => total + part.passed, 0),
    failed: parts.reduce((total, part) => total + part.failed, 0),
    skipped: parts.flatMap((part) => part.skipped),
  };
}

/** The last line of a run. In CI a skipped test counts as failed. */
export function lastLine({ passed, failed, skipped }: Counts, inCi: boolean): { text: string; ok: boolean } {
  const broken = failed + (inCi ? skipped.length : 0);
  const left = skipped.length > 0 && !inCi ? `, ${skipped.length} skipped` : '';
  return { text: `${passed} passed, ${broken} failed${left}`, ok: broken === 0 && passed > 0 };
}
