/** The least that answers the same question: Fastify and pg, with the same session, member and row read. */
import { createHmac, timingSafeEqual } from 'node:crypto';
import process from 'node:process';
import { fastify } from 'fastify';
import pg from 'pg';

const { AUTH_DATABASE_URL, DATABASE_URL, AUTH_SECRET = '', PORT } = process.env;
const auth = new pg.Pool({ connectionString: AUTH_DATABASE_URL, max: 10 });
const config: pg.PoolConfig & { pipeline: boolean } = { connectionString: DATABASE_URL, max: 10, pipeline: true };
const pool = new pg.Pool(config);

const SESSION = `SELECT s."userId", s."expiresAt", m."organizationId" AS "tenantId", m.role FROM auth.session s
  LEFT JOIN auth.member m ON m."userId" = s."userId" AND m."organizationId" = s."activeOrganizationId"::uuid
  WHERE s.token = $1 AND s."expiresAt" > $2`;
const ME = `SELECT p.id, p.name, p.email, t.name AS firm, t.locale, t.time_zone FROM person p JOIN tenant t ON t.id = p.tenant_id
  WHERE p.tenant_id = $1 AND p.user_id = $2`;

function tokenOf(cookie = ''): string | undefined {
  const signed = decodeURIComponent(/session_token=([^;]+)/.exec(cookie)?.[1] ?? '');
  const at = signed.lastIndexOf('.');
  const given = Buffer.from(signed.slice(at + 1), 'base64');
  const right = createHmac('sha256', AUTH_SECRET).update(signed.slice(0, at)).digest();
  return given.length === right.length && timingSafeEqual(given, right) ? signed.slice(0, at) : undefined;
}

const app = fastify();
app.get('/v1/me', async (request, reply) => {
  const token = tokenOf(request.headers.cookie);
  const found = await auth.query<{ userId: string; tenantId: string; role: string }>({
    name: 'session',
    text: SESSION,
    values: [token, new Date()],
  });
  const [who] = found.rows;
  if (!who) return reply.code(401).send();
  const client = await pool.connect();
  const [, me] = await Promise.all([
    client.query(`BEGIN; SET LOCAL app.tenant_id = '${who.tenantId}'`),
    client.query<object>({ name: 'me', text: ME, values: [who.tenantId, who.userId] }),
    client.query('COMMIT'),
  ]);
  client.release();
  return { role: who.role, ...me.rows[0] };
});
await app.listen({ port: Number(PORT), host: '127.0.0.1' });
