import { createHash } from 'node:crypto';
import type { Client } from 'pg';
import { to as copyTo } from 'pg-copy-streams';
import type { Table } from './tables.ts';

const NEWLINE = 0x0a;

/** How values are written, whatever the server and the login have set. */
export const PLAIN = `SET LOCAL TimeZone = 'UTC'; SET LOCAL DateStyle = 'ISO, YMD'; SET LOCAL IntervalStyle = 'postgres';
  SET LOCAL extra_float_digits = 1; SET LOCAL bytea_output = 'hex'; SET LOCAL client_encoding = 'UTF8'`;

/** A table's rows as COPY text, contractor by contractor, each in the order of its key. Nothing is held in memory. */
export async function* rowsOut(
  client: Client,
  { name, columns, order, tenantColumn }: Table,
  tenants: readonly string[],
): AsyncGenerator<Buffer> {
  const select = `SELECT ${columns.join(', ')} FROM ${name}`;
  // The owner is behind the walls as well; and where it is not, each contractor's rows still come once.
  const parts =
    tenantColumn === undefined
      ? [{ tenant: '', text: `${select} ORDER BY ${order}` }]
      : tenants.map((tenant) => ({
          tenant,
          text: `${select} WHERE ${tenantColumn} = ${client.escapeLiteral(tenant)}::uuid ORDER BY ${order}`,
        }));
  for (const { tenant, text } of parts) {
    await client.query(`SELECT set_config('app.tenant_id', $1, true)`, [tenant]);
    const stream = client.query(copyTo(`COPY (${text}) TO STDOUT`));
    for await (const chunk of stream) yield chunk as Buffer;
  }
}

/** Counts and hashes what passes. In COPY text each row ends in a newline, and none stands inside one. */
export class Meter {
  rows = 0;
  bytes = 0;
  readonly #hash = createHash('sha256');

  async *through(source: AsyncIterable<Buffer>): AsyncGenerator<Buffer> {
    for await (const chunk of source) {
      this.bytes += chunk.length;
      this.#hash.update(chunk);
      for (let at = chunk.indexOf(NEWLINE); at >= 0; at = chunk.indexOf(NEWLINE, at + 1)) this.rows += 1;
      yield chunk;
    }
  }
  /** Ends the measuring. */
  sum(): { rows: number; bytes: number; sha256: string } {
    return { rows: this.rows, bytes: this.bytes, sha256: this.#hash.digest('hex') };
  }
}

/** What a table holds, by number and checksum; the same for equal rows in any database. */
export async function tableSum(
  client: Client,
  table: Table,
  tenants: readonly string[],
): Promise<ReturnType<Meter['sum']>> {
  const meter = new Meter();
  for await (const chunk of meter.through(rowsOut(client, table, tenants))) void chunk;
  return meter.sum();
}
