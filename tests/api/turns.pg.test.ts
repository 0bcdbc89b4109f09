import { expect, test } from 'vitest';
import { fakeOffice } from '../support/api-office.ts';
import { aFirm } from '../support/api-people.ts';
import { runApi } from '../support/api-run.ts';

test('a contractor that asks for everything at once waits for itself, and another is answered at once', async () => {
  const held: (() => void)[] = [];
  let running = 0;
  let most = 0;
  const api = await runApi({
    office: (parts) => {
      const office = fakeOffice(parts);
      return {
        ...office,
        books: async (actor) => {
          running += 1;
          most = Math.max(most, running);
          await new Promise<void>((resolve) => held.push(resolve));
          running -= 1;
          return office.books(actor);
        },
      };
    },
  });
  const [loud, quiet] = [await aFirm(api, 'Loud'), await aFirm(api, 'Quiet')];
  const flood = Array.from({ length: 20 }, () => loud.of.auditor.get('/v1/books'));
  await expect.poll(() => running).toBe(3);
  expect((await quiet.of.auditor.get('/v1/me')).status).toBe(200);
  expect(running).toBe(3);
  let answered = 0;
  for (const asked of flood) void asked.then(() => (answered += 1));
  while (answered < flood.length) {
    for (const end of held.splice(0)) end();
    await new Promise((resolve) => setTimeout(resolve, 5));
  }
  expect((await Promise.all(flood)).map(({ status }) => status)).toEqual(flood.map(() => 200));
  expect(most).toBe(3);
});
