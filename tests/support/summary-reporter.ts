import { writeFileSync } from 'node:fs';
import type { Reporter, TestModule } from 'vitest/node';

/** Writes the counts for `npm test`, which sums them with the browser's and prints the closing line. */
export default class SummaryReporter implements Reporter {
  onTestRunEnd(modules: readonly TestModule[], errors: readonly unknown[]) {
    const counts = { passed: 0, failed: 0, skipped: [] as string[], errors: errors.length };
    for (const module of modules) {
      let seen = 0;
      for (const test of module.children.allTests()) {
        seen++;
        const { state } = test.result();
        if (state === 'passed') counts.passed++;
        else if (state === 'failed') counts.failed++;
        else counts.skipped.push(`${module.relativeModuleId} > ${test.fullName}`);
      }
      // A file that did not load has no tests and must not pass for it.
      if (seen === 0 || (module.state() === 'failed' && module.errors().length > 0)) counts.failed++;
    }
    // Set by `npm test`, so that a run beside it does not write into its counts.
    const { TEST_SUMMARY } = process.env;
    if (TEST_SUMMARY) writeFileSync(TEST_SUMMARY, JSON.stringify(counts));
  }
}
