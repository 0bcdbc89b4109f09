import { TABLES } from './tables.sql.ts';

const FILES: readonly (readonly [name: string, about: string])[] = [
  ...TABLES.map(({ name, about }) => [name, about] as const),
  ['photos/', 'Photos as they were taken, each named by the SHA-256 of its bytes; facts.csv names them so.'],
  ['small/', 'Small ones of them, for lists.'],
  [
    'history.jsonl',
    'Everything that happened, in the order in which it took effect. A firm that has nothing yet takes it over.',
  ],
  ['people.jsonl', 'Who was there. No password, key or second factor is in this file.'],
  ['photos.jsonl', 'What is known of each photo.'],
  ['books.jsonl', 'How the books and the duties stood: what a take-over is compared with.'],
  ['manifest.json', 'When and of whom this was made, the grams in each account, and the SHA-256 of every file.'],
];
const WIDTH = Math.max(...FILES.map(([name]) => name.length)) + 2;

/** The text that lies on top. */
export const readme = ({ name, madeAt }: { name: string; madeAt: string }): string =>
  [
    `Everything of ${name}, as of ${madeAt} (UTC).`,
    '',
    'Files that end in .csv open in any spreadsheet: UTF-8, commas, heads in the first line. Masses in grams are whole; what',
    'was entered stands beside them with its unit. An apostrophe before = + - @ keeps text from being run as a formula.',
    'Files that end in .jsonl hold one JSON value a line.',
    '',
    ...FILES.map(([file, about]) => `${file.padEnd(WIDTH)}${about}`),
    '',
    'To take it over: found a firm, open Settings, Leaving, and choose this zip as it is.',
    '',
  ].join('\r\n');
