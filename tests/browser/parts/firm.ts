/** A contractor made in a moment through the same addresses the screens use, for tests that are about something else. */
import { randomBytes } from 'node:crypto';
import type { Browser, BrowserContext, BrowserContextOptions } from '@playwright/test';
import { uuidv7 } from '@ullage/units';
import { PORT } from '../playwright.config.ts';
import { dayAt, hourAt, morningZone } from './days.ts';

const ORIGIN = `http://localhost:${PORT}`;
export const newId = (): string => uuidv7(Date.now(), randomBytes(10));
export const PASSWORD = 'a long enough sentence';

/** Sends as the person whose cookies the context holds. @throws Error with the answer when it is a refusal */
export async function post(context: BrowserContext, path: string, data: unknown): Promise<Record<string, unknown>> {
  const headers = { origin: ORIGIN, 'idempotency-key': newId() };
  const answer = await context.request.post(path, { data, headers });
  if (!answer.ok()) throw new Error(`${path}: ${answer.status()} ${await answer.text()}`);
  return (await answer.json()) as Record<string, unknown>;
}
export async function get<T>(context: BrowserContext, path: string): Promise<T> {
  const answer = await context.request.get(path);
  if (!answer.ok()) throw new Error(`${path}: ${answer.status()} ${await answer.text()}`);
  return (await answer.json()) as T;
}
export const command = (context: BrowserContext, kind: string, body: unknown): Promise<Record<string, unknown>> =>
  post(context, `/v1/commands/${kind}`, { body });

interface Newcomer {
  readonly name: string;
  readonly options?: BrowserContextOptions;
}
/** Somebody with an account and no contractor. */
export async function newcomer(browser: Browser, { name, options = {} }: Newcomer): Promise<BrowserContext> {
  const context = await browser.newContext({ baseURL: ORIGIN, ...options });
  const email = `${newId()}@firm.example`;
  await post(context, '/v1/auth/sign-up/email', { name, email, password: PASSWORD });
  return context;
}

/** An owner of a contractor in which nothing has happened yet. */
export async function aFirm(browser: Browser, name: string, timeZone = morningZone()): Promise<BrowserContext> {
  const owner = await newcomer(browser, { name: 'Orla Finch' });
  const made = await post(owner, '/v1/auth/organization/create', { name, metadata: { timeZone } });
  await post(owner, '/v1/auth/organization/set-active', { organizationId: made['id'] });
  return owner;
}

interface Joiner extends Newcomer {
  readonly role: string;
}
/** Somebody who has followed a link of the owner's. */
export async function joined(browser: Browser, owner: BrowserContext, who: Joiner): Promise<BrowserContext> {
  const context = await newcomer(browser, who);
  const { user } = await get<{ user: { email: string } }>(context, '/v1/auth/get-session');
  const { url } = await post(owner, '/v1/people/invitations', { email: user.email, role: who.role });
  const accepted = await post(context, '/v1/auth/organization/accept-invitation', {
    invitationId: String(url).split('/').at(-1),
  });
  const { organizationId } = accepted['invitation'] as { organizationId: string };
  await post(context, '/v1/auth/organization/set-active', { organizationId });
  return context;
}

export const lb = (value: string) => ({ value, unit: 'lb' as const });
export interface Job {
  readonly zone: string;
  readonly visitId: string;
  readonly circuitId: string;
  readonly unitId: string;
  readonly personId: string;
}

/** A certified technician with a visit today to a commercial rack of R-448A, full at 220 lb. */
export async function jobFor(owner: BrowserContext, technician: BrowserContext, tag = '0311'): Promise<Job> {
  const zone = morningZone();
  const me = await get<{ person: { id: string; name: string; certificates: unknown[] } }>(technician, '/v1/me');
  const personId = me.person.id;
  const certificates = [{ id: newId(), scheme: 'us-608', type: 'II' }];
  if (me.person.certificates.length === 0)
    await command(owner, 'register-person', { personId, name: me.person.name, certificates });
  const [visitId, circuitId, unitId] = [newId(), newId(), newId()];
  await command(owner, 'take-call', {
    customer: { id: newId(), new: { name: 'Brackwater Foods' } },
    site: { id: newId(), new: { address: '8 Tannery Lane, Oxmere', timeZone: zone, elevationM: 1600 } },
    unit: { id: unitId, new: { tag, description: 'Dairy rack' } },
    circuit: {
      id: circuitId,
      new: {
        refrigerant: 'R-448A',
        use: 'commercial-refrigeration',
        fullCharge: { mass: lb('220'), method: 'manufacturer' },
      },
    },
    history: [{ id: newId(), onDay: dayAt(zone, -75), mass: lb('18'), by: 'other' }],
    visit: { id: visitId, symptom: 'Cases warm.' },
  });
  const placed = { visitId, version: 1, personId, day: dayAt(zone), time: hourAt(zone, 2), minutes: 120 };
  await command(owner, 'place-visit', placed);
  return { zone, visitId, circuitId, unitId, personId };
}

/** The technician's visit, done: a flare nut repaired and proven, 18 lb charged, normal operation stated. */
export async function workDone(technician: BrowserContext, { visitId, circuitId }: Job): Promise<void> {
  const [cylinderId, leakPointId] = [newId(), newId()];
  const on = { visitId, circuitId };
  const record = (kind: string, body: object) => command(technician, kind, { ...on, ...body });
  await command(technician, 'arrive', { visitId });
  await record('record-leak-point', { leakPointId, place: 'flare-nut', where: 'Case 7' });
  const done = { what: 'New flare', opened: false, drierChanged: false };
  await record('record-repair', { leakPointIds: [leakPointId], ...done });
  const test = { stage: 'initial', method: 'nitrogen-soap', gas: 'nitrogen', result: 'pass' };
  await record('record-verification', { leakPointIds: [leakPointId], ...test });
  const stamps = { specification: 'DOT-4BA400', serial: 'NG-77', waterCapacity: lb('123'), tare: lb('55') };
  const gas = { refrigerant: 'R-448A', state: 'new', gross: lb('160') };
  await command(technician, 'register-cylinder', { cylinderId, kind: 'refillable', ...stamps, gas });
  await record('record-charge', { cylinderId, before: lb('160'), after: lb('142'), full: 'yes' });
  await record('state-normal-operation', { runs: true });
  await command(technician, 'finish-visit', { visitId });
}
