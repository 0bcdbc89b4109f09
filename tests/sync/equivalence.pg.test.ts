/**
 * The simulation once more, against the model and the real casework on PostgreSQL at the same time: every answer to every
 * push and pull is compared as it is given, and at the end what the two have written. No backup is restored here.
 */
import { beforeAll, describe, expect, test } from 'vitest';
import type { CommandAnswer, CommandStanding, Problem, PullAsked } from '@ullage/contracts';
import { openTestOffice } from '../support/office.ts';
import type { Contractor, TestOffice } from '../support/office.ts';
import { cylinders, ids, theCall } from '../support/story.ts';
import { modelDesk, START_MS } from './model-desk.ts';
import { PEOPLE, run } from './run.ts';
import type { Clock, Desk, Ground } from './run.ts';

const SEEDS = Array.from({ length: 24 }, (_, at) => 1_001 + at);
/** Who they are at the office. */
const ROLE_OF: Readonly<Record<string, 'technician' | 'manager'>> = { ada: 'technician', bo: 'manager' };

let world: TestOffice;
beforeAll(async () => {
  world = await openTestOffice(new Date(START_MS).toISOString());
}, 60_000);

/** Visits on circuits of their own, and a full cylinder for each. */
async function groundAt(firm: Contractor): Promise<Ground> {
  const all = [ids(), ids(), ids()];
  for (const [at, of] of all.entries()) {
    const call = theCall(of, { first: '2025-12-01', second: '2026-02-14' });
    await firm.send('dispatcher', 'take-call', {
      ...call,
      history: [],
      unit: { id: of.unit, new: { tag: `04${at}` } },
    });
    await firm.send('warehouse', 'register-cylinder', { ...cylinders(of).newGas, serial: `N-${at}` });
  }
  return {
    visits: all.map(({ visit }) => visit),
    circuits: all.map(({ circuit }) => circuit),
    cylinders: all.map(({ newGas }) => newGas),
  };
}

const typeOf = (problem: Problem | undefined) => problem?.type ?? null;
const answerIn = ({ id, outcome, problem }: CommandAnswer) => ({ id, outcome, problem: typeOf(problem) });
const standingIn = ({ id, state, problem }: CommandStanding) => ({ id, state, problem: typeOf(problem) });

function bothDesks(firm: Contractor, ground: Ground, clock: Clock): Desk {
  const model = modelDesk(ground, clock, Infinity);
  const { tenantId } = firm;
  const { office, sql } = world;
  const actorOf = (person: string) => firm.actors[ROLE_OF[person]!];
  const atNow = (): void => void (world.clock.now = new Date(clock.now).toISOString());
  /** The model's places in its feed, and the real one's at that moment. */
  const places = new Map<string, { epoch: number; number: number }>();
  const settle = async (commandId: string, how: 'try-again' | 'leave-out'): Promise<void> => {
    atNow();
    const [item] = await sql<{ id: string }>(
      'SELECT id FROM attention WHERE tenant_id = $1 AND command_id = $2 AND closed_at IS NULL',
      [tenantId, commandId],
    );
    expect(item !== undefined).toBe((await model.attention()).includes(commandId));
    if (item) await firm.send('dispatcher', 'settle-attention', { attentionId: item.id, how });
  };
  return {
    ...model,
    push: async (person, batch, upTo) => {
      atNow();
      const commands = batch.commands.toSorted((a, b) => a.deviceSeq - b.deviceSeq).slice(0, upTo);
      const real = await office.push(actorOf(person), { ...batch, commands });
      const answer = await model.push(person, batch, upTo);
      expect(real.answers.map(answerIn)).toEqual(answer.answers.map(answerIn));
      return answer;
    },
    pull: async (person, asked: PullAsked) => {
      atNow();
      const from = places.get(`${asked.epoch}-${asked.number}`) ?? { epoch: 0, number: 0 };
      const real = await office.pull(actorOf(person), { ...from, commandIds: asked.commandIds });
      const answer = await model.pull(person, asked);
      places.set(`${answer.epoch}-${answer.number}`, { epoch: real.epoch, number: real.number });
      expect(real.scope.toSorted()).toEqual(answer.scope.toSorted());
      expect(real.standing.map(standingIn)).toEqual(answer.standing.map(standingIn));
      // It may tell of more than the model: a visit is then read again for nothing. It never tells of less.
      expect(real.changed).toEqual(expect.arrayContaining(answer.changed));
      expect(real.now).toBe(answer.now);
      return answer;
    },
    place: async (visitId, people) => {
      await model.place(visitId, people);
      const users = people.map((person) => actorOf(person).userId);
      // How a visit is placed is not what this is about: the rows are written as placing writes them.
      await sql(
        `WITH gone AS (DELETE FROM visit_person WHERE tenant_id = $1 AND visit_id = $2 AND NOT EXISTS (
            SELECT FROM person WHERE person.tenant_id = $1 AND person.id = visit_person.person_id AND user_id = ANY($3::uuid[]))),
          come AS (INSERT INTO visit_person (tenant_id, visit_id, person_id, placed_by, placed_at)
            SELECT $1, $2, id, user_id, $4 FROM person WHERE tenant_id = $1 AND user_id = ANY($3::uuid[]) ON CONFLICT DO NOTHING),
          placed AS (UPDATE visit SET state = 'placed', planned_start = $4 WHERE tenant_id = $1 AND id = $2),
          counter AS (UPDATE feed_counter SET number = number + 1 WHERE tenant_id = $1 RETURNING epoch, number)
        INSERT INTO feed (tenant_id, epoch, number, kind, record_id, op, at)
          SELECT $1, epoch, number, 'visit', $2, 'changed', $4 FROM counter`,
        [tenantId, visitId, users, new Date(clock.now).toISOString()],
      );
    },
    tryAgain: async (id) => {
      await settle(id, 'try-again');
      await model.tryAgain(id);
    },
    leaveOut: async (id) => {
      await settle(id, 'leave-out');
      await model.leaveOut(id);
    },
    backup: undefined,
    restore: undefined,
  };
}

/** Everything the office has written about what was sent, in rows that can be compared. */
async function writtenAt(firm: Contractor, ground: Ground) {
  const { tenantId } = firm;
  const commands = await world.sql<{ id: string; state: string }>(
    "SELECT id, state FROM command WHERE tenant_id = $1 AND (device_id IS NOT NULL OR envelope ? 'withdrawnBy') ORDER BY id",
    [tenantId],
  );
  const facts = await world.sql<{ visit: string; id: string; at: Date }>(
    `SELECT visit_id AS visit, command_id AS id, happened_at AS at FROM fact WHERE tenant_id = $1 AND visit_id = ANY($2) AND kind = 'charge'`,
    [tenantId, [...ground.visits]],
  );
  const charged = await world.sql<{ cylinder: string; grams: number }>(
    `SELECT cylinder.cylinder_id AS cylinder, sum(grams)::int AS grams FROM movement
      JOIN gas_account cylinder ON cylinder.tenant_id = movement.tenant_id AND cylinder.id = movement.from_id
      JOIN gas_account circuit ON circuit.tenant_id = movement.tenant_id AND circuit.id = movement.to_id
      WHERE movement.tenant_id = $1 AND circuit.circuit_id IS NOT NULL AND measured = 'scale' GROUP BY 1`,
    [tenantId],
  );
  return {
    commands: commands.map(({ id, state }) => `${id} ${state}`),
    facts: facts.map(({ visit, id, at }) => `${visit} ${id} ${at.toISOString()}`).sort(),
    charged: Object.fromEntries(charged.map(({ cylinder, grams }) => [cylinder, grams])),
  };
}

describe('the model of the office is the office, as far as a device can tell', () => {
  for (const seed of SEEDS)
    test(`seed ${seed}`, async () => {
      const clock = { now: START_MS };
      world.clock.now = new Date(START_MS).toISOString();
      const firm = await world.contractor();
      const ground = await groundAt(firm);
      const desk = bothDesks(firm, ground, clock) as Desk & ReturnType<typeof modelDesk>;
      const told = await run({ seed, ground, desk, clock, steps: 40 });
      expect(told.wishes).toBeGreaterThan(0);
      const { commands, visits } = desk.model.state;
      expect(await writtenAt(firm, ground)).toEqual({
        commands: [...commands].map(([id, { state }]) => `${id} ${state}`).sort(),
        facts: [...visits.values()]
          .flatMap(({ id, facts }) => facts.map((fact) => `${id} ${fact.id} ${fact.happenedAt}`))
          .sort(),
        charged: Object.fromEntries(Object.entries(await desk.books()).filter(([, grams]) => grams !== 0)),
      });
      const { totals } = await world.office.books(firm.actors.auditor);
      expect(totals.filter(({ grams }) => grams !== 0)).toEqual([]);
    });
  test('every person has a role here', () =>
    expect(PEOPLE.every((person) => ROLE_OF[person] !== undefined)).toBe(true));
});
