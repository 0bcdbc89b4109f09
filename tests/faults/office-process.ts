/** An office in a process of its own, for killing: it pushes the batch it is given and says when it is done. */
import { randomBytes } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { Temporal } from 'temporal-polyfill';
import { createOffice } from '@ullage/casework';
import type { Actor } from '@ullage/casework';
import { Database } from '@ullage/database';
import { makeCalendar, uuidv7 } from '@ullage/units';

const { url, actor, now, push } = JSON.parse(readFileSync(0, 'utf8')) as {
  url: string;
  actor: Actor;
  now: string;
  push: unknown;
};
const database = new Database({ url, name: 'office process', connections: 4 });
const newId = (): string => uuidv7(Date.now(), randomBytes(10));
const office = createOffice({ database, calendar: makeCalendar(Temporal as never), now: () => now, newId });
const { answers } = await office.push(actor, push);
process.stdout.write(JSON.stringify(answers.map(({ outcome }) => outcome)));
await database.close();
