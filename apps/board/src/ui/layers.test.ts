import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';

const ORDER = '@layer reset, tokens, base, ui, picture, screen;';
const src = join(import.meta.dirname, '..');
const files = readdirSync(src, { recursive: true, encoding: 'utf8' }).filter((file) => file.endsWith('.css'));

// A page loads its style files in an order nobody controls, and the first mention of a layer decides its rank.
test('every style file states the order of the layers before anything else', () => {
  expect(files.length).toBeGreaterThan(20);
  const wrong = files.filter((file) => {
    const text = readFileSync(join(src, file), 'utf8').replace(/\/\*[\s\S]*?\*\//g, '');
    return !text.trimStart().startsWith(ORDER);
  });
  expect(wrong).toEqual([]);
});
