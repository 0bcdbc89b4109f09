/** Stands in for the office where a test is about the way there: it keeps what it was asked and answers the least. */
import type { Actor, Clock, Office } from '@ullage/casework';
import { MAY, OUTSIDE_KINDS, Refusal } from '@ullage/contracts';
import type { Database } from '@ullage/database';

export interface Asked {
  readonly method: string;
  readonly actor: Actor;
  readonly more: readonly unknown[];
}
const notFound = (): never => {
  throw new Refusal('not-found', 'No such record.');
};

/** Knows no record: every id is unknown. Lists are empty, commands are applied by nobody. */
export function fakeOffice({ clock }: { database: Database; clock: Clock }, asked: Asked[] = []): Office {
  const note = (method: string, actor: Actor, ...more: unknown[]): void => void asked.push({ method, actor, more });
  return {
    apply: async (actor, command) => {
      note('apply', actor, command);
      return { id: command.id, outcome: 'applied', records: [], asks: [] };
    },
    push: async (actor, body) => {
      note('push', actor, body);
      return { answers: [], epoch: 1, number: 0 };
    },
    me: async (actor) => {
      note('me', actor);
      return {
        user: { id: actor.userId, name: 'Kim', email: 'kim@firm.example' },
        role: actor.role,
        permissions: [...MAY[actor.role]],
        person: { id: actor.userId, name: 'Kim', certificates: [] },
        tenant: {
          id: actor.tenantId,
          name: 'Firm',
          locale: 'en-US',
          timeZone: 'America/Denver',
          massUnit: 'lb',
          pressureUnit: 'psig',
          temperatureUnit: 'F',
          vacuumUnit: 'micron',
          demo: false,
        },
        now: clock.now(),
      };
    },
    namePhoto: async (actor, named) => {
      note('namePhoto', actor, named);
      return { hash: named.hash, state: 'arriving', partBytes: 262_144, missing: [0] };
    },
    receivePart: async () => notFound(),
    photo: async () => notFound(),
    thumbnail: async () => notFound(),
    people: async (actor, door) => {
      note('people', actor, door);
      return { items: [], ...door };
    },
    places: async () => ({ customers: [], sites: [], units: [] }),
    units: async () => ({ items: [], next: null }),
    unit: async () => notFound(),
    visits: async () => ({ items: [], now: clock.now() }),
    visit: async () => notFound(),
    evacuation: async () => notFound(),
    serviceRecord: async () => notFound(),
    suggestions: async () => notFound(),
    placingGround: async () => notFound(),
    returns: async () => ({
      now: clock.now(),
      timeZone: 'America/Denver',
      number: 0,
      items: [],
      calls: [],
      people: [],
      week: { fromDay: '2026-03-02', days: [] },
      workingDay: { from: '07:00', to: '17:00' },
    }),
    recalls: async () => ({ items: [] }),
    recall: async () => notFound(),
    cylinders: async () => ({ items: [], next: null, gases: [], places: [], kept: [] }),
    cylinder: async () => notFound(),
    cylinderUse: async () => notFound(),
    manifests: async () => ({ items: [], next: null, number: 0 }),
    manifest: async () => notFound(),
    leakRateSheet: async () => notFound(),
    books: async () => ({ accounts: [], totals: [], number: 0 }),
    statement: async () => notFound(),
    repeats: async () => ({
      window: { firstDay: '2024-03-03', lastDay: '2026-03-02', months: 24 },
      gwpSet: 'AR4',
      order: 'evidence',
      currency: 'USD',
      fleet: { circuits: 0, topOffs: 0, rate: null },
      total: 0,
      items: [],
      next: null,
      number: 0,
    }),
    oneAway: async () => ({ items: [], total: 0 }),
    prices: async () => ({ currency: 'USD', today: '2026-03-02', gases: [], unpriced: [], number: 0 }),
    gasUsed: async () => ({ billed: 'open', currency: 'USD', items: [], next: null, open: [], number: 0 }),
    gasUsedWhole: async () => ({ rows: [], currency: 'USD' }),
    period: async () => ({
      contractor: 'Tarn & Bracken Cooling',
      from: '2026-01-01',
      to: '2026-12-31',
      timeZone: 'America/Denver',
      madeAt: clock.now(),
      books: [],
      accounts: Object.fromEntries(OUTSIDE_KINDS.map((kind) => [kind, kind])) as Record<
        (typeof OUTSIDE_KINDS)[number],
        string
      >,
    }),
    periodAccounts: async (_, { refrigerant }) => ({ refrigerant, accounts: [], more: false }),
    attention: async () => ({ items: [] }),
    notices: async () => ({ items: [] }),
    settings: async () => ({
      massUnit: 'lb',
      pressureUnit: 'psig',
      temperatureUnit: 'F',
      vacuumUnit: 'micron',
      shopExcessKpa: 69,
      currency: 'USD',
      gwpSet: 'AR4',
    }),
    webhooks: async () => ({ items: [] }),
    addWebhook: async (actor, webhook) => note('addWebhook', actor, webhook),
    setWebhook: async () => notFound(),
    testWebhook: async () => notFound(),
    removeWebhook: async () => notFound(),
    leaving: async () => ({ exports: [], takeOver: null, isFresh: true, partBytes: 262_144, maxBytes: 2_000_000_000 }),
    askExport: async () => ({ id: clock.newId() }),
    exportFile: async () => notFound(),
    nameTakeOver: async () => ({ id: clock.newId(), partBytes: 262_144, missing: [0] }),
    receiveParcelPart: async () => notFound(),
    beginTakeOver: async () => notFound(),
    locations: async () => ({ items: [], people: [] }),
    instruments: async () => ({ items: [], people: [], today: '2026-03-02' }),
    imports: async () => ({ items: [] }),
    importRun: async () => notFound(),
    importRows: async () => notFound(),
    receiveImport: async () => notFound(),
    matchImport: async () => notFound(),
    decideImport: async () => notFound(),
    runImport: async () => notFound(),
    undoImport: async () => notFound(),
    pull: async (actor, asked) => {
      note('pull', actor, asked);
      const standing = asked.commandIds.map((id) => ({ id, state: 'unknown' as const }));
      return { epoch: 1, number: 0, now: clock.now(), more: false, scope: [], changed: [], standing };
    },
    changes: async (_, since) => ({ ...since, reset: false, rows: [], more: false }),
  };
}
