import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { checkLint } from '../../apps/cli/src/check/tools.ts';
import { plantedRepository } from './planted.ts';

const many = (count: number, line: (index: number) => string): string =>
  Array.from({ length: count }, (_, index) => line(index)).join('\n');
const STORE = 'interface Db { q(): string; inTenant(id: string, run: (tx: { q(): string }) => void): void }\n';

/** Rule by rule: a file that breaks it, and only it. */
const PLANTED: Readonly<Record<string, { rule: string; file: string; source: string }>> = {
  'a file over 300 lines': {
    rule: 'max-lines',
    file: 'packages/casework/src/long.ts',
    source: many(301, (index) => `export const line${index} = ${index};`),
  },
  'a function over 60 lines': {
    rule: 'max-lines-per-function',
    file: 'packages/casework/src/tall.ts',
    source: `export function tall(): number[] {\n  return [\n${many(60, (index) => `    ${index},`)}\n  ];\n}\n`,
  },
  'four parameters': {
    rule: 'max-params',
    file: 'packages/casework/src/wide.ts',
    source: 'export const wide = (a: number, b: number, c: number, d: number): number => a + b + c + d;\n',
  },
  'more than twelve ways through a function': {
    rule: 'complexity',
    file: 'packages/casework/src/branchy.ts',
    source: `export function branchy(n: number): number {\n${many(12, (i) => `  if (n === ${i}) return ${i + 1};`)}\n  return 0;\n}\n`,
  },
  'the type any': {
    rule: 'no-explicit-any',
    file: 'packages/casework/src/any.ts',
    source: 'export const loose = (value: any): void => void value;\n',
  },
  'a non-null assertion': {
    rule: 'no-non-null-assertion',
    file: 'packages/casework/src/sure.ts',
    source: 'export const sure = (list: number[]): number => list[0]!;\n',
  },
  'a default export': {
    rule: 'no-default-export',
    file: 'packages/casework/src/nameless.ts',
    source: 'export default 1;\n',
  },
  'a word on the console': {
    rule: 'no-console',
    file: 'packages/casework/src/loud.ts',
    source: "export const loud = (): void => console.log('here');\n",
  },
  'a promise nobody waits for': {
    rule: 'no-floating-promises',
    file: 'packages/casework/src/floating.ts',
    source: 'const work = async (): Promise<void> => {};\nexport function floating(): void {\n  work();\n}\n',
  },
  'a promise where none is awaited': {
    rule: 'no-misused-promises',
    file: 'packages/casework/src/misused.ts',
    source: 'export const each = (list: number[]): void => list.forEach(async () => {});\n',
  },
  'a switch that forgets a case': {
    rule: 'switch-exhaustiveness-check',
    file: 'packages/casework/src/forgetful.ts',
    source:
      "export function forgetful(end: 'a' | 'b'): number {\n  switch (end) {\n    case 'a':\n      return 1;\n  }\n  return 0;\n}\n",
  },
  'a clock in a pure room': {
    rule: 'no-restricted-globals',
    file: 'packages/thermo/src/clock.ts',
    source: 'export const clock = (): number => Date.now();\n',
  },
  'the environment in a pure room': {
    rule: 'no-restricted-globals',
    file: 'packages/units/src/platform.ts',
    source: 'export const platform = (): string => process.platform;\n',
  },
  'a request in a pure room': {
    rule: 'no-restricted-globals',
    file: 'packages/rulebook/src/request.ts',
    source: "export const request = (): Promise<unknown> => fetch('https://example.org');\n",
  },
  'a timer in a pure room': {
    rule: 'no-restricted-globals',
    file: 'packages/sums/src/timer.ts',
    source: 'export const timer = (run: () => void): void => void setTimeout(run, 1);\n',
  },
  'chance in a pure room': {
    rule: 'no-restricted-properties',
    file: 'packages/gasbook/src/chance.ts',
    source: 'export const chance = (): number => Math.random();\n',
  },
  'the calendar of the platform in a pure room': {
    rule: 'no-restricted-properties',
    file: 'packages/roster/src/today.ts',
    source: 'export const today = (): string => Temporal.Now.plainDateISO().toString();\n',
  },
  'SELECT *': {
    rule: 'no-select-star',
    file: 'packages/database/src/star.ts',
    source: 'export const star = `SELECT c.* FROM circuit c WHERE c.id = $1`;\n',
  },
  'RETURNING *': {
    rule: 'no-select-star',
    file: 'packages/database/src/back.ts',
    source: "export const back = 'INSERT INTO circuit (id) VALUES ($1) RETURNING *';\n",
  },
  'process.env outside env.ts': {
    rule: 'env-in-env-file',
    file: 'apps/api/src/main.ts',
    source: 'export const port = process.env.PORT;\n',
  },
  'process.env unpacked outside env.ts': {
    rule: 'env-in-env-file',
    file: 'apps/worker/src/main.ts',
    source: 'export const { env } = process;\n',
  },
  'the database past its transaction, by this': {
    rule: 'transaction-only',
    file: 'packages/casework/src/past-this.ts',
    source: `${STORE}export class Past {\n  private readonly db: Db;\n  constructor(db: Db) {\n    this.db = db;\n  }\n  run(): void {\n    this.db.inTenant('t', (tx) => void (tx.q() + this.db.q()));\n  }\n}\n`,
  },
  'the database past its transaction, by name': {
    rule: 'transaction-only',
    file: 'packages/casework/src/past-name.ts',
    source: `${STORE}export const past = (db: Db): void => db.inTenant('t', (tx) => void (tx.q() + db.q()));\n`,
  },
};

/** What must stay allowed, or people would work round the rules. */
const ALLOWED: Readonly<Record<string, string>> = {
  'apps/api/src/env.ts': 'export const port = process.env.PORT;\n',
  'apps/board/src/app/page.tsx': 'export default function Page(): string {\n  return "";\n}\n',
  'packages/gasbook/src/story.test.ts': 'export const first = (list: number[]): number => list[0]! + Date.now();\n',
  'packages/units/src/zone.ts': 'export const nameOf = (at: Temporal.Instant): string => at.toString();\n',
  'packages/database/src/count.ts': "export const count = 'SELECT count(*) FROM circuit';\n",
  'packages/casework/src/within.ts': `${STORE}export const within = (db: Db): void => db.inTenant('t', (tx) => void tx.q());\n`,
};

describe('lint', () => {
  const files = Object.fromEntries(Object.values(PLANTED).map(({ file, source }) => [file, source]));
  const planted = plantedRepository({ ...files, ...ALLOWED });
  let words = '';
  beforeAll(async () => {
    const outcome = await checkLint(planted.root, ['--format=unix']);
    expect(outcome.ok).toBe(false);
    words = outcome.words;
  }, 60_000);
  afterAll(planted.remove);
  const broken = (file: string): string[] =>
    words
      .split('\n')
      .filter((line) => line.startsWith(`${file}:`))
      .map((line) => /\/[\w-]+\(([\w-]+)\)\]$/.exec(line)?.[1] ?? line);

  test.each(Object.entries(PLANTED))('refuses %s', (_, { rule, file }) => {
    expect(new Set(broken(file))).toEqual(new Set([rule]));
  });

  test.each(Object.keys(ALLOWED))('leaves %s alone', (file) => {
    expect(broken(file)).toEqual([]);
  });
});
