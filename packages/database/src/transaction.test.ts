import { expect, test } from 'vitest';
import type pg from 'pg';
import { asTenant, followTransactions, txQuery } from './transaction.ts';
import type { Tx } from './transaction.ts';
import * as z from 'zod';

const TENANT = '0f7c2f52-6a4e-4a53-9a52-1d2a7c3f6b10';
const textOf = (config: pg.QueryConfig | string): string => (typeof config === 'string' ? config : config.text);

/** A connection that writes down what it is sent, and fails where it is told to. */
function connection(failing: RegExp = /$never/) {
  const sent: string[] = [];
  const packets: string[][] = [];
  let corked: string[] | undefined;
  const stream = {
    cork: () => void (corked = []),
    uncork: () => void (corked &&= (packets.push(corked), undefined)),
  };
  const query = (config: pg.QueryConfig | string): Promise<unknown> => {
    const text = textOf(config);
    sent.push(text);
    if (corked) corked.push(text);
    else packets.push([text]);
    return failing.test(text) ? Promise.reject(new Error(`no ${text.slice(0, 5)}`)) : Promise.resolve({ rows: [] });
  };
  const client = { query, connection: { stream } } as unknown as pg.PoolClient;
  followTransactions(client);
  return { client, sent, packets };
}
/** As the adapter does it. */
const adapter = (client: pg.PoolClient) => ({
  begin: () => client.query({ text: 'BEGIN' }),
  commit: () => client.query({ text: 'COMMIT' }),
});
const ONE = { text: 'SELECT 1', row: z.unknown() };

test('BEGIN carries the tenant and goes out with the first statement', async () => {
  const { client, packets } = connection();
  await asTenant(TENANT, async (joined) => {
    const tx = joined({} as Tx);
    await adapter(client).begin();
    expect(packets).toEqual([]);
    await txQuery(tx, ONE);
    await txQuery(tx, ONE);
    await adapter(client).commit();
  });
  expect(packets).toEqual([[`BEGIN; SET LOCAL app.tenant_id = '${TENANT}'`, 'SELECT 1'], ['SELECT 1'], ['COMMIT']]);
});

test('no statement has an answer when its BEGIN failed, whatever it would have said', async () => {
  const { client } = connection(/BEGIN/);
  await asTenant(TENANT, async (joined) => {
    const tx = joined({} as Tx);
    await adapter(client).begin();
    const both = await Promise.allSettled([txQuery(tx, ONE), client.query('SELECT 2')]);
    expect(both.map((one) => one.status === 'rejected' && String(one.reason))).toEqual([
      'Error: no BEGIN',
      'Error: no BEGIN',
    ]);
    await expect(adapter(client).commit()).rejects.toThrow('no BEGIN');
  });
});

test('a transaction in which nothing is asked still opens before it ends', async () => {
  const { client, sent } = connection();
  await asTenant(TENANT, async () => {
    await adapter(client).begin();
    await adapter(client).commit();
  });
  expect(sent).toEqual([`BEGIN; SET LOCAL app.tenant_id = '${TENANT}'`, 'COMMIT']);
});

test('after its end a transaction sends nothing on a connection that may serve another tenant', async () => {
  const { client, sent } = connection();
  await asTenant(TENANT, async (joined) => {
    const tx = joined({} as Tx);
    await adapter(client).begin();
    await adapter(client).commit();
    await expect(txQuery(tx, ONE)).rejects.toThrow('The transaction is over.');
  });
  expect(sent).not.toContain('SELECT 1');
});

test('an id that is no UUID opens nothing', () => {
  expect(() => asTenant(`x'; DROP TABLE movement; --`, () => Promise.resolve())).toThrow(z.ZodError);
});
