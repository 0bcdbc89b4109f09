import { expect, test } from 'vitest';
import { Turns } from './turns.ts';

const settled = async (): Promise<void> => {
  for (let n = 0; n < 5; n += 1) await Promise.resolve();
};

test('a contractor’s requests are begun a few at a time, in order; another’s do not wait for them', async () => {
  const turns = new Turns({ atOnce: 2, waiting: 3 });
  const begun: string[] = [];
  const ends: (() => void)[] = [];
  const ask = (who: string, name: string): Promise<void> =>
    turns.begin(who).then((end) => {
      begun.push(name);
      ends.push(end);
    });
  void ['1', '2', '3', '4', '5'].map((name) => ask('loud', name));
  void ask('quiet', 'q');
  await settled();
  expect(begun).toEqual(['1', '2', 'q']);
  // The line is full: whoever comes now is told so, and takes nobody's place.
  await expect(turns.begin('loud')).rejects.toThrow(/at once for this contractor/);
  ends[0]?.();
  await settled();
  expect(begun).toEqual(['1', '2', 'q', '3']);
  for (const end of ends.splice(1)) end();
  await settled();
  for (const end of ends.splice(1)) end();
  await settled();
  expect(begun).toEqual(['1', '2', 'q', '3', '4', '5']);
});

test('a line that is done is forgotten, and begins anew', async () => {
  const turns = new Turns({ atOnce: 1, waiting: 0 });
  const end = await turns.begin('a');
  await expect(turns.begin('a')).rejects.toThrow();
  end();
  const again = await turns.begin('a');
  again();
});
