import { beforeAll, describe, expect, test } from 'vitest';
import { COMMAND_NAMES, COMMANDS, may, Refusal, ROLES } from '@ullage/contracts';
import type { CommandName, Role } from '@ullage/contracts';
import { bodiesOf, decided } from '../support/bodies.ts';
import type { Bodies } from '../support/bodies.ts';
import { onDay } from '../support/day.ts';
import { newId, openTestOffice } from '../support/office.ts';
import type { Contractor, TestOffice } from '../support/office.ts';
import { expectPlainWords } from '../support/refused.ts';
import { told } from '../support/told.ts';

let world: TestOffice;
let firm: Contractor;
let bodies: Bodies;
beforeAll(async () => {
  world = await openTestOffice(onDay('2026-04-30')('17:00'));
  const story = await told(world);
  firm = story.firm;
  await decided({ world, ...story });
  bodies = bodiesOf({ world, ...story });
}, 60_000);

type Path = readonly (string | number)[];
/** Every place in a body, objects and lists included. */
function paths(value: unknown, path: Path = []): Path[] {
  const inner = typeof value === 'object' && value !== null ? Object.entries(value) : [];
  return [path, ...inner.flatMap(([key, part]) => paths(part, [...path, key]))];
}
const LEAVE_OUT = Symbol('leave out');
const SPOILT: readonly (readonly [string, unknown])[] = [
  ['nothing', LEAVE_OUT],
  ['null', null],
  ['yes', true],
  ['a number', 7],
  ['a negative number', -1],
  ['a huge number', 1e21],
  ['a number past 32 bits', 2 ** 40],
  ['half', 0.5],
  ['a word', 'x'],
  ['no text', ''],
  ['a NUL', 'a\u0000b'],
  ['half a surrogate pair', 'a\ud800b'],
  ['100 kB of text', 'ä'.repeat(50_000)],
  ['a list', []],
  ['an object', {}],
  ['a field too many', { nobodyKnows: 1 }],
];
function spoil(body: unknown, path: Path, value: unknown): unknown {
  const root = { body: structuredClone(body) } as Record<string | number, unknown>;
  let at = root;
  const keys = ['body', ...path];
  for (const key of keys.slice(0, -1)) at = at[key] as Record<string | number, unknown>;
  const last = keys.at(-1)!;
  if (value === LEAVE_OUT) delete at[last];
  else at[last] = value;
  return root['body'];
}
const roleFor = (kind: CommandName): Role => ROLES.find((role) => may(role, COMMANDS[kind].permission))!;

describe('every field of every command, spoilt in every way', () => {
  // A visit is left last: what is tried after it needs one that is open.
  const order = [...COMMAND_NAMES].sort((a, b) => Number(a === 'finish-visit') - Number(b === 'finish-visit'));
  for (const kind of order) {
    test(`${kind} is applied, or refused in plain words at the right place, and then nothing of it is there`, async () => {
      const refused: string[] = [];
      for (const path of paths(await bodies[kind]())) {
        for (const [how, value] of SPOILT) {
          const id = newId();
          const at = `${path.join('/')}: ${how}`;
          const body = spoil(await bodies[kind](), path, value);
          const error = await firm.send(roleFor(kind), kind, body as never, { id }).then(
            () => undefined,
            (thrown: unknown) => thrown,
          );
          if (error === undefined) continue;
          if (!(error instanceof Refusal)) throw new Error(`${at}: not a refusal`, { cause: error });
          expectPlainWords(error, at);
          const place = ['#', 'body', ...path].join('/');
          for (const { pointer } of error.errors)
            expect(pointer.startsWith(place) || place.startsWith(pointer), `${at} but ${pointer}`).toBe(true);
          refused.push(id);
        }
      }
      expect(refused.length).toBeGreaterThan(10);
      const [left] = await world.sql<{ n: number }>(
        `SELECT (SELECT count(*) FROM command WHERE id = ANY($1))::int + (SELECT count(*) FROM fact WHERE command_id = ANY($1))::int
          + (SELECT count(*) FROM audit WHERE command_id = ANY($1))::int AS n`,
        [refused],
      );
      expect(left!.n).toBe(0);
      expect((await world.office.books(firm.actors.owner)).totals.every(({ grams }) => grams === 0)).toBe(true);
    }, 60_000);
  }
});
