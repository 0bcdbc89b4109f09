/** People who use the api under test: they sign up, found a contractor, invite and join as anybody would. */
import { ROLES } from '@ullage/contracts';
import type { Role } from '@ullage/contracts';
import type { Running } from './api-run.ts';
import { newId, ORIGIN } from './api-run.ts';

export const PASSWORD = 'correct horse nine';
export interface Answer {
  readonly status: number;
  readonly headers: Readonly<Record<string, unknown>>;
  readonly text: string;
  readonly bytes: Buffer;
  /** The body as JSON. @throws SyntaxError when it is none */
  json(): Record<string, unknown>;
}
export interface Ask {
  readonly body?: unknown;
  /** The body as bytes, for what no JSON writer would make. */
  readonly bytes?: Buffer | string;
  readonly key?: string | false;
  readonly headers?: Readonly<Record<string, string>>;
}
let people = 0;

/** A browser with its cookies. */
export class Visitor {
  readonly #api: Running;
  readonly #cookies = new Map<string, string>();
  readonly email: string;
  constructor(api: Running, email = `p${++people}@firm.example`) {
    this.#api = api;
    this.email = email;
  }
  get cookie(): string {
    return [...this.#cookies].map(([name, value]) => `${name}=${value}`).join('; ');
  }

  async ask(method: 'GET' | 'POST' | 'PUT' | 'PATCH' | 'DELETE', url: string, more: Ask = {}): Promise<Answer> {
    const sends = more.body !== undefined || more.bytes !== undefined;
    const response = await this.#api.app.inject({
      method,
      url,
      headers: {
        ...(method === 'GET' ? {} : { origin: ORIGIN }),
        ...(method === 'GET' || more.key === false ? {} : { 'idempotency-key': more.key ?? newId() }),
        ...(this.#cookies.size === 0 ? {} : { cookie: this.cookie }),
        ...(sends ? { 'content-type': 'application/json' } : {}),
        ...more.headers,
      },
      ...(sends ? { payload: more.bytes ?? JSON.stringify(more.body) } : {}),
    });
    for (const { name, value } of response.cookies) this.#cookies.set(name, value);
    return {
      status: response.statusCode,
      headers: response.headers,
      text: response.body,
      bytes: response.rawPayload,
      json: () => JSON.parse(response.body) as Record<string, unknown>,
    };
  }
  get(url: string, more: Ask = {}): Promise<Answer> {
    return this.ask('GET', url, more);
  }
  post(url: string, body?: unknown, more: Ask = {}): Promise<Answer> {
    return this.ask('POST', url, { ...more, ...(body === undefined ? {} : { body }) });
  }

  async signUp(name = 'Kim'): Promise<void> {
    await expectOk(this.post('/v1/auth/sign-up/email', { name, email: this.email, password: PASSWORD }));
  }
  async signIn(): Promise<void> {
    await expectOk(this.post('/v1/auth/sign-in/email', { email: this.email, password: PASSWORD }));
  }
  /** Makes a contractor and acts for it from now on. Returns its id. */
  async found(name = 'Coldwell Refrigeration', timeZone = 'America/Denver'): Promise<string> {
    const made = await expectOk(this.post('/v1/auth/organization/create', { name, metadata: { timeZone } }));
    return String(made.json()['id']);
  }
  /** Returns the link. */
  async invite(email: string, role: Role): Promise<string> {
    const made = await expectOk(this.post('/v1/people/invitations', { email, role }));
    return String(made.json()['url']);
  }
  async accept(url: string): Promise<void> {
    const invitationId = url.split('/').at(-1);
    await expectOk(this.post('/v1/auth/organization/accept-invitation', { invitationId }));
  }
}

export async function expectOk(asked: Promise<Answer>): Promise<Answer> {
  const answer = await asked;
  if (answer.status !== 200) throw new Error(`${answer.status}: ${answer.text}`);
  return answer;
}

export interface Firm {
  readonly tenantId: string;
  readonly of: Readonly<Record<Role, Visitor>>;
}
/** A contractor with one person of each role, all joined by link. */
export async function aFirm(api: Running, name?: string): Promise<Firm> {
  const owner = new Visitor(api);
  await owner.signUp();
  const tenantId = await owner.found(name);
  const of: Partial<Record<Role, Visitor>> = { owner };
  for (const role of ROLES.filter((each) => each !== 'owner')) {
    const visitor = new Visitor(api);
    await visitor.signUp();
    await visitor.accept(await owner.invite(visitor.email, role));
    of[role] = visitor;
  }
  return { tenantId, of: of as Record<Role, Visitor> };
}
