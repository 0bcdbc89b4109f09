/**
 * How much one account, one contractor and one address may ask of this process in a minute. They guard the process's own
 * time and connections against a runaway script, so each replica grants its whole share anew: n of them behind one name
 * grant up to n times as much, and have n times as much to give. What guards a secret is not counted here but in the
 * database, for all processes together: see auth/attempts.ts.
 */
import { Refusal } from '@ullage/contracts';

export const WINDOW_MS = 60_000;
export interface LimitSettings {
  readonly perAccount: number;
  readonly perTenant: number;
  readonly perAddress: number;
  /** Requests of one contractor that are worked on at a time: see turns.ts. */
  readonly atOnce?: number;
}
export const LIMITS: LimitSettings = { perAccount: 1_200, perTenant: 6_000, perAddress: 3_000 };

/** Requests per key in windows of a minute. */
class Window {
  readonly #atMost: number;
  readonly #counts = new Map<string, number>();
  #opened = -Infinity;
  constructor(atMost: number) {
    this.#atMost = atMost;
  }
  /** False once the key has had its share. */
  count(key: string, nowMs: number): boolean {
    if (nowMs - this.#opened >= WINDOW_MS) {
      this.#counts.clear();
      this.#opened = nowMs;
    }
    const count = (this.#counts.get(key) ?? 0) + 1;
    this.#counts.set(key, count);
    return count <= this.#atMost;
  }
}

export class Limits {
  readonly #account: Window;
  readonly #tenant: Window;
  readonly #address: Window;
  readonly #nowMs: () => number;
  constructor(settings: LimitSettings, nowMs: () => number) {
    this.#account = new Window(settings.perAccount);
    this.#tenant = new Window(settings.perTenant);
    this.#address = new Window(settings.perAddress);
    this.#nowMs = nowMs;
  }
  /** @throws Refusal `too-many` */
  countAccount(userId: string): void {
    if (!this.#account.count(userId, this.#nowMs())) refuse('this account');
  }
  /** @throws Refusal `too-many` */
  countTenant(tenantId: string): void {
    if (!this.#tenant.count(tenantId, this.#nowMs())) refuse('this contractor');
  }
  /** Only where the address is known. @throws Refusal `too-many` */
  countAddress(address: string): void {
    if (!this.#address.count(address, this.#nowMs())) refuse('this address');
  }
}
function refuse(whose: string): never {
  throw new Refusal('too-many', `Too many requests for ${whose}: wait a minute.`);
}
