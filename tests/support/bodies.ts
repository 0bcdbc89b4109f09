/** One good body of every command, over the records of a story that has been told: what a wall or a bad field is tried on. */
import type { CommandBody, CommandName } from '@ullage/contracts';
import { newId } from './office.ts';
import type { Contractor, TestOffice } from './office.ts';
import type { StoryIds } from './story.ts';

const g = (value: string) => ({ value, unit: 'g' as const });
const psig = (value: string) => ({ value, unit: 'psig' as const });

/** Records beside the story's own. `onSite` and `proposed` are two further visits of its circuit. */
export interface Scene {
  readonly of: StoryIds;
  readonly onSite: string;
  readonly proposed: string;
  readonly scale: string;
  /** A warehouse, for where a cylinder is read. */
  readonly location: string;
  readonly attention: string;
  /** To the owner. */
  readonly notice: string;
  /** Of a person nothing is placed on. */
  readonly certificate: string;
  /** Somebody without a sign-in, and somebody who has left. */
  readonly idle: string;
  readonly left: string;
  /** Carried out; its row 2 made a customer. */
  readonly importId: string;
}
/** A good body, made anew at each call: what it makes gets fresh ids. Every optional id field is there. */
export type Bodies = { readonly [K in CommandName]: () => CommandBody<K> | Promise<CommandBody<K>> };

type Given = { world: TestOffice; firm: Contractor; scene: Scene };
const versionOf = async ({ world, firm }: Given, visitId: string): Promise<number> =>
  (await world.office.visit(firm.actors.owner, visitId)).visit.version;

async function certificateOf({ world, firm, scene }: Given): Promise<{ certificateId: string; version: number }> {
  const { items } = await world.office.people(firm.actors.owner, { invitations: [], mailsLinks: false });
  const found = items.flatMap(({ certificates }) => certificates).find(({ id }) => id === scene.certificate);
  return { certificateId: scene.certificate, version: found?.version ?? 0 };
}

function desk(given: Given): Pick<Bodies, DeskName> {
  const { of, proposed, attention, notice, idle, left, importId } = given.scene;
  const certificate = () => ({ id: newId(), scheme: 'us-608' as const, type: 'II' as const });
  return {
    'take-call': () => ({
      customer: { id: of.customer },
      site: { id: of.site },
      unit: { id: of.unit },
      circuit: { id: of.circuit },
      history: [{ id: newId(), onDay: '2025-11-03', mass: null, by: 'other' }],
      visit: { id: newId() },
    }),
    'place-visit': async () => ({
      visitId: proposed,
      version: await versionOf(given, proposed),
      personId: of.technician,
      withPersonIds: [of.apprentice],
      day: '2026-05-04',
      time: '10:00',
      minutes: 60,
    }),
    'unplace-visit': async () => ({ visitId: proposed, version: await versionOf(given, proposed) }),
    'register-person': () => ({ personId: newId(), name: 'Ada Moss', certificates: [certificate()] }),
    'end-certificate': async () => ({ ...(await certificateOf(given)), fromDay: '2027-01-01', why: 'Withdrawn' }),
    'correct-certificate': async () => ({
      ...(await certificateOf(given)),
      type: 'II',
      registeredOn: '2025-05-01',
      endsOn: null,
      why: 'Read from the card',
    }),
    'deactivate-person': () => ({ personId: idle }),
    'reactivate-person': () => ({ personId: left }),
    'register-instrument': () => ({
      instrumentId: newId(),
      kind: 'detector',
      tag: `D-${newId()}`,
      carrierId: of.technician,
    }),
    'register-cylinder': () => ({
      cylinderId: newId(),
      kind: 'recovery',
      specification: 'DOT-4BA400',
      serial: 'TB-99',
      waterCapacity: { value: '47.6', unit: 'lb' },
      tare: { value: '28', unit: 'lb' },
      testedMonth: '2024-03',
      ownerCustomerId: of.customer,
    }),
    'describe-site': () => ({ siteId: of.site, elevationM: 1610, contact: { name: 'Ines Roper', phone: '555 0142' } }),
    'describe-circuit': () => ({ circuitId: of.circuit, why: 'Seen on the roof.', equipment: 'rack' }),
    'set-full-charge': () => ({
      circuitId: of.circuit,
      fromOn: '2026-04-01',
      fullCharge: { mass: { value: '218', unit: 'lb' }, method: 'calculated' },
    }),
    'settle-attention': () => ({ attentionId: attention, how: 'leave-out' }),
    'mark-notices-read': () => ({ noticeIds: [notice] }),
    'register-equipment': () => ({
      customer: { id: of.customer },
      site: { id: of.site },
      unit: { id: of.unit },
      circuit: { id: of.circuit },
      history: [{ id: newId(), onDay: '2025-10-02', mass: g('900'), by: 'us' }],
    }),
    'record-past-additions': () => ({
      circuitId: of.circuit,
      additions: [{ id: newId(), onDay: '2025-09-14', mass: null, by: 'other', who: 'Fell Cooling' }],
    }),
    'take-back-row': () => ({ importId, row: 2 }),
  };
}

function house({ scene: { of, location } }: Given): Pick<Bodies, HouseName> {
  return {
    'change-settings': () => ({ massUnit: 'kg', pressureUnit: 'kpa-gauge', temperatureUnit: 'C', vacuumUnit: 'pa' }),
    'register-location': () => ({
      locationId: newId(),
      kind: 'van',
      name: 'Van 4',
      elevationM: 1609,
      keeperId: of.technician,
    }),
    'change-location': () => ({ locationId: location, name: 'Back store', keeperId: of.technician }),
    'change-instrument': () => ({ instrumentId: of.detector, senseGramsPerYear: 3, carrierId: of.technician }),
    'retire-instrument': () => ({ instrumentId: of.detector, why: 'Pump is worn' }),
    'record-calibration': () => ({
      instrumentId: of.detector,
      calibratedOn: '2026-03-02',
      by: 'Front Range Metrology',
      result: 'adjusted',
      nextOn: '2027-03-02',
    }),
  };
}
type DeskName =
  | 'take-call'
  | 'place-visit'
  | 'unplace-visit'
  | 'register-person'
  | 'end-certificate'
  | 'correct-certificate'
  | 'deactivate-person'
  | 'reactivate-person'
  | 'register-instrument'
  | 'register-cylinder'
  | 'describe-site'
  | 'describe-circuit'
  | 'set-full-charge'
  | 'settle-attention'
  | 'mark-notices-read'
  | 'register-equipment'
  | 'record-past-additions'
  | 'take-back-row';
type GasName =
  | 'record-recovery'
  | 'record-charge'
  | 'record-service-loss'
  | 'record-delivery'
  | 'hand-over'
  | 'weigh-cylinder'
  | 'correct-tare'
  | 'record-transfer'
  | 'record-air-check'
  | 'correct-weighing';
type KeeperName =
  | 'record-shipment'
  | 'record-acceptance'
  | 'mark-lost'
  | 'mark-found'
  | 'return-cylinder'
  | 'scrap-cylinder'
  | 'take-back';
type HouseName =
  | 'change-settings'
  | 'register-location'
  | 'change-location'
  | 'change-instrument'
  | 'retire-instrument'
  | 'record-calibration';
type ManagerName =
  'set-price' | 'withdraw-price' | 'bill-gas' | 'undo-bill' | 'plan-replacement' | 'withdraw-replacement';

function gas({ scene: { of, onSite, scale, location } }: Given): Pick<Bodies, GasName> {
  const on = { visitId: onSite, circuitId: of.circuit };
  return {
    'record-recovery': () => ({
      ...on,
      part: 'isolated',
      work: { openingSquareInches: 1, openMinutes: 20 },
      machineId: scale,
      cylinderId: of.recovery,
      cylinderEvacuated: false,
      before: g('24701'),
      after: g('24801'),
      scaleId: scale,
      stop: psig('0'),
      openLeak: false,
    }),
    'record-charge': () => ({
      ...on,
      cylinderId: of.newGas,
      before: g('52408'),
      after: g('52308'),
      scaleId: scale,
      full: 'no',
    }),
    'record-service-loss': () => ({ ...on, mass: g('5'), how: 'Hose' }),
    'record-delivery': () => ({
      supplier: 'Nettle Gases',
      locationId: location,
      refrigerant: 'R-134a',
      state: 'new',
      kind: 'disposable',
      specification: 'DOT-39',
      waterCapacity: g('13600'),
      tare: g('3000'),
      net: g('13000'),
      cylinders: [{ cylinderId: newId(), serial: `D-${newId()}` }],
    }),
    'hand-over': () => ({ cylinders: [{ cylinderId: of.recovery, fromId: location }], toId: location }),
    'weigh-cylinder': () => ({ cylinderId: of.recovery, gross: g('24801'), scaleId: scale }),
    'correct-tare': () => ({
      cylinderId: of.recovery,
      tare: g('12690'),
      since: 'always',
      why: 'The stamp reads 12.69 kg.',
    }),
    'record-transfer': () => ({
      visitId: onSite,
      from: { cylinderId: of.newGas, weights: { before: g('52308'), after: g('52208') } },
      to: { cylinderId: of.recovery, evacuated: false, weights: { before: g('24801'), after: g('24901') } },
      scaleId: scale,
      doubts: ['hoses-not-purged'],
    }),
    'record-air-check': () => ({
      visitId: onSite,
      cylinderId: of.recovery,
      refrigerant: 'R-448A',
      restedHours: 24,
      liquidPresent: true,
      temperature: { value: '75', unit: 'F' },
      pressure: psig('150'),
      barometer: { value: '83.5', unit: 'kpa' },
      locationId: location,
      elevationM: 1600,
      gross: g('24901'),
      scaleId: scale,
      gaugeId: scale,
      thermometerId: scale,
      pressureSigmaKpa: 7,
      temperatureSigmaK: 1,
    }),
    'correct-weighing': () => ({
      factId: of.chargeMore,
      cylinderId: of.newGas,
      after: { value: '115.52', unit: 'lb' },
      why: 'Read again',
    }),
  };
}

const KEPT = ['sent', 'accepted', 'lost', 'returned', 'scrapped', 'slip'] as const;
type Kept = Record<(typeof KEPT)[number], string> & { receiver: string };
/** The keeper's cylinders, one for each thing that happens to one, by their labels. */
async function keptOf({ world, firm }: Pick<Given, 'world' | 'firm'>): Promise<Kept> {
  const { items } = await world.office.cylinders(firm.actors.owner, { query: 'KEPT-' });
  const places = await world.office.locations(firm.actors.owner);
  return {
    ...(Object.fromEntries(items.map(({ label, id }) => [label?.slice(5), id])) as Kept),
    receiver: places.items.find(({ kind }) => kind === 'reclaimer')?.id ?? '',
  };
}
/** Six cylinders with 2,000 g of new gas each; one is with a reclaimer. */
async function keep({ world, firm, scene: { location } }: Given): Promise<void> {
  const receiver = newId();
  await firm.send('warehouse', 'register-location', {
    ...{ locationId: receiver, kind: 'reclaimer', name: 'Sage Reclaim', elevationM: 1600 },
  });
  for (const label of KEPT) {
    const cylinderId = newId();
    await firm.send('warehouse', 'register-cylinder', {
      ...{ cylinderId, kind: 'refillable', specification: 'DOT-4BA400', serial: `KEPT-${newId()}` },
      ...{ label: `KEPT-${label}`, waterCapacity: g('12000'), tare: g('5000'), testedMonth: '2024-03' },
      gas: { refrigerant: 'R-134a', state: 'new', gross: g('7000') },
    });
    await firm.send('warehouse', 'hand-over', { cylinders: [{ cylinderId, fromId: null }], toId: location });
  }
  const { accepted } = await keptOf({ world, firm });
  await firm.send('warehouse', 'record-shipment', {
    ...{ receiverId: receiver, purpose: 'reclaim', carrier: 'Own van' },
    cylinders: [{ cylinderId: accepted, fromId: location, gross: g('7000') }],
  });
}
/** The last report of a kind about a cylinder that nobody took back. */
async function lastFact(
  { world }: Pick<Given, 'world'>,
  kind: string,
  cylinderId: string,
): Promise<string | undefined> {
  const rows = await world.sql<{ id: string }>(
    `SELECT f.id FROM fact f JOIN fact_ref r ON r.tenant_id = f.tenant_id AND r.fact_id = f.id
     WHERE f.kind = $1 AND r.cylinder_id = $2
       AND NOT EXISTS (SELECT FROM fact b WHERE b.tenant_id = f.tenant_id AND b.corrects_id = f.id AND b.kind = 'taken-back')
     ORDER BY f.id DESC LIMIT 1`,
    [kind, cylinderId],
  );
  return rows[0]?.id;
}

function keeper(given: Given): Pick<Bodies, KeeperName> {
  const { world, firm, scene } = given;
  const { scale, location: fromId } = scene;
  /** Where it is, unless it is gone: then that is taken back. */
  const home = async (label: 'returned' | 'scrapped'): Promise<string> => {
    const cylinderId = (await keptOf(given))[label];
    const gone = await lastFact(given, `cylinder-${label}`, cylinderId);
    if (gone) await firm.send('warehouse', 'take-back', { factId: gone, why: 'It is still here' });
    return cylinderId;
  };
  return {
    'record-shipment': async () => {
      const { sent: cylinderId, receiver } = await keptOf(given);
      const { place } = (await world.office.cylinder(firm.actors.owner, cylinderId)).cylinder;
      if (place?.id !== fromId)
        await firm.send('warehouse', 'hand-over', {
          ...{ cylinders: [{ cylinderId, fromId: place?.id ?? null }], toId: fromId },
        });
      return {
        ...{ receiverId: receiver, purpose: 'reclaim', certificate: 'C-77', carrier: 'Own van', reference: 'B-9' },
        ...{ scaleId: scale, note: 'Two straps' },
        cylinders: [{ cylinderId, fromId, gross: g('7000') }],
      };
    },
    'record-acceptance': async () => {
      const { accepted: cylinderId } = await keptOf(given);
      return {
        shipmentId: (await lastFact(given, 'shipment', cylinderId))!,
        note: 'By letter',
        cylinders: [
          {
            ...{ cylinderId, accepted: g('1990'), found: 'as-sent', told: 'Pure', why: 'Their scale' },
            after: 'not-evacuated',
          },
        ],
      };
    },
    'mark-lost': async () => ({
      ...{ cylinderId: (await keptOf(given)).lost, lastSeenOn: '2026-04-20', why: 'Not on the shelf' },
    }),
    'mark-found': async () => ({
      ...{
        cylinderId: (await keptOf(given)).lost,
        toId: fromId,
        gross: g('7000'),
        scaleId: scale,
        note: 'In the yard',
      },
    }),
    'return-cylinder': async () => ({
      ...{ cylinderId: await home('returned'), fromId, supplier: 'Nettle Gases', gross: g('7000') },
      ...{ scaleId: scale, note: 'With its heel' },
    }),
    'scrap-cylinder': async () => ({
      ...{ cylinderId: await home('scrapped'), fromId, gross: g('5010'), scaleId: scale },
      ...{ evacuated: true, receiver: 'Yard Metals', note: 'Valve out' },
    }),
    'take-back': async () => {
      const { slip: cylinderId } = await keptOf(given);
      const last = () => lastFact(given, 'cylinder-lost', cylinderId);
      if (!(await last())) await firm.send('warehouse', 'mark-lost', { cylinderId, why: 'A slip' });
      return { factId: (await last())!, why: 'It is here' };
    },
  };
}

/** A price, an invoice, a plan and a recall that stand: what is withdrawn must be there first. */
export async function decided({ world, firm, scene }: Given): Promise<void> {
  const { of, onSite } = scene;
  await keep({ world, firm, scene });
  await firm.send('technician', 'record-charge', {
    ...{ visitId: onSite, circuitId: of.circuit, cylinderId: of.newGas, full: 'no' },
    ...{ before: g('52408'), after: g('52358') },
  });
  await firm.send('manager', 'set-price', priceOf(OLD_PRICE));
  await firm.send('manager', 'bill-gas', await billOf({ world, firm }, onSite));
  await firm.send('manager', 'plan-replacement', planOf(of.circuit));
  const recall = recalls({ world, firm, scene });
  await recall['release-cylinder']();
  await recall['settle-recall-item']();
  await recall['close-recall']();
  await recall['open-recall']();
}
const OLD_PRICE = '1949-01-01';
const priceOf = (fromOn: string) => ({
  ...{ priceId: newId(), refrigerant: 'R-448A', unit: 'lb' as const, purchase: '11.25', sale: '24', fromOn },
});
const planOf = (circuitId: string) => ({ planId: newId(), circuitId, reason: 'Coil is worn', byOn: '2027-03-01' });
const usedAt = async ({ world, firm }: Pick<Given, 'world' | 'firm'>, visitId: string) => {
  const { items } = await world.office.gasUsed(firm.actors.manager, { billed: 'all' });
  return items.find((row) => row.visitId === visitId)!;
};
const billOf = async (given: Pick<Given, 'world' | 'firm'>, visitId: string) => {
  const { refrigerant, billGrams: grams } = await usedAt(given, visitId);
  return { billId: newId(), visitId, refrigerant, grams, invoice: 'I-1' };
};

/** What a good body needs that an earlier one used up is made again; while nothing was, nothing is written. */
function manager(given: Given): Pick<Bodies, ManagerName> {
  const { world, firm, scene } = given;
  const { of, onSite } = scene;
  let days = 0;
  const standingPrice = async (): Promise<string | undefined> => {
    const { gases } = await world.office.prices(firm.actors.manager);
    const all = gases.flatMap(({ history }) => history);
    return all.find(({ fromOn, withdrawn }) => fromOn === OLD_PRICE && withdrawn === null)?.id;
  };
  const standingPlan = async (): Promise<string | undefined> =>
    (await world.office.repeats(firm.actors.manager, {})).items.find((row) => row.circuitId === of.circuit)?.plan?.id;
  return {
    'set-price': () => priceOf(new Date(Date.UTC(1950, 0, 1 + days++)).toISOString().slice(0, 10)),
    'withdraw-price': async () => {
      if (!(await standingPrice())) await firm.send('manager', 'set-price', priceOf(OLD_PRICE));
      return { priceId: (await standingPrice())! };
    },
    'bill-gas': async () => {
      const { bill } = await usedAt(given, of.visit);
      if (bill) await firm.send('manager', 'undo-bill', { billId: bill.id });
      return billOf(given, of.visit);
    },
    'undo-bill': async () => {
      if (!(await usedAt(given, onSite)).bill) await firm.send('manager', 'bill-gas', await billOf(given, onSite));
      return { billId: (await usedAt(given, onSite)).bill!.id };
    },
    'plan-replacement': () => planOf(of.circuit),
    'withdraw-replacement': async () => {
      if (!(await standingPlan())) await firm.send('manager', 'plan-replacement', planOf(of.circuit));
      return { planId: (await standingPlan())!, reason: 'Repaired after all' };
    },
  };
}

/** A recall that reached a cylinder, one that reached nothing, and that cylinder set aside: each made again once used up. */
function recalls({ world, firm }: Given): Pick<Bodies, RecallName> {
  const { owner } = firm.actors;
  const titled = async (title: string) =>
    (await world.office.recalls(owner)).items.filter((item) => item.title.startsWith(title));
  const bottle = async (): Promise<string> => {
    const { items } = await world.office.cylinders(owner, { query: RECALLED });
    if (items[0]) return items[0].id;
    const cylinderId = newId();
    await firm.send('owner', 'register-cylinder', {
      cylinderId,
      kind: 'recovery',
      specification: 'DOT-4BA400',
      serial: RECALLED,
      waterCapacity: { value: '47.6', unit: 'lb' },
      tare: { value: '28', unit: 'lb' },
    });
    return cylinderId;
  };
  const from = async () => {
    const since = new Date(Date.UTC(2026, 0, 1) + 60_000 * (await titled(RECALLED)).length).toISOString();
    return { cylinderId: await bottle(), since, why: 'Smells of acid' };
  };
  const reached = async (): Promise<string> => {
    const standing = (await titled(RECALLED)).find(({ closedAt }) => closedAt === null);
    if (standing) return standing.id;
    const recallId = newId();
    await firm.send('owner', 'recall-gas', { recallId, ...(await from()) });
    return recallId;
  };
  /** A check that an instrument failed, which no recall has begun at. */
  const failed = async (): Promise<string> => {
    const tag = `S-idle ${(await titled('S-idle')).length}`;
    const { items } = await world.office.instruments(owner);
    const known = items.find((item) => item.tag === tag)?.checks[0];
    if (known) return known.id;
    const [instrumentId, id] = [newId(), newId()];
    await firm.send('owner', 'register-instrument', { instrumentId, kind: 'scale', tag });
    const check = { calibratedOn: '2026-03-02', by: 'Front Range Metrology', result: 'fail' as const };
    await firm.send('owner', 'record-calibration', { instrumentId, ...check }, { id });
    return id;
  };
  const ofNothing = async (): Promise<string> => {
    const standing = (await titled('S-idle')).find(({ closedAt }) => closedAt === null);
    if (standing) return standing.id;
    const recallId = newId();
    await firm.send('owner', 'open-recall', { recallId, factId: await failed() });
    return recallId;
  };
  const settle = async () => ({
    recallId: await reached(),
    item: { kind: 'cylinder' as const, id: await bottle() },
    how: 'set-aside' as const,
    why: 'Acid test first',
  });
  return {
    'open-recall': async () => ({ recallId: newId(), factId: await failed() }),
    'recall-gas': async () => ({ recallId: newId(), ...(await from()) }),
    'settle-recall-item': settle,
    'close-recall': async () => ({ recallId: await ofNothing() }),
    'release-cylinder': async () => {
      const cylinderId = await bottle();
      const { doubts } = await world.office.cylinder(owner, cylinderId);
      if (!doubts.some(({ cause }) => cause === 'set-aside'))
        await firm.send('owner', 'settle-recall-item', await settle());
      return { cylinderId, why: 'No acid in it' };
    },
  };
}
const RECALLED = 'RC-1907';
type RecallName = 'open-recall' | 'recall-gas' | 'settle-recall-item' | 'close-recall' | 'release-cylinder';

function field({
  scene: { of, onSite, scale },
}: Given): Omit<Bodies, DeskName | GasName | HouseName | KeeperName | ManagerName | RecallName> {
  const on = { visitId: onSite, circuitId: of.circuit };
  return {
    'record-owner-told': () => ({ ...on, who: 'Ines Varga' }),
    arrive: () => ({ visitId: onSite }),
    'record-safety': () => ({ visitId: onSite, checks: ['ventilated'], notDone: [] }),
    'record-tool-check': () => ({
      visitId: onSite,
      instrumentId: of.detector,
      against: 'leak-standard',
      result: 'pass',
    }),
    'record-readings': () => ({ ...on, stage: 'first', running: false, standing: psig('120'), gaugeId: scale }),
    'record-look': () => ({
      ...on,
      places: ['flare-nut'],
      method: 'electronic',
      instrumentId: of.detector,
      unitState: 'off',
      result: 'clear',
    }),
    'record-plate': () => ({ ...on, photos: ['ab'.repeat(32)], reads: 'R-448A, 220 lb' }),
    'record-leak-point': () => ({
      ...on,
      leakPointId: newId(),
      lookId: of.look,
      place: 'flare-nut',
      where: 'Case 9',
    }),
    'record-consent': () => ({ ...on, options: [{ what: 'New flare' }], decision: 'defer', by: 'Ines Varga' }),
    'record-repair': () => ({
      ...on,
      leakPointIds: [of.leak],
      what: 'Tightened',
      opened: false,
      drierChanged: false,
    }),
    'record-verification': () => ({
      ...on,
      stage: 'initial',
      leakPointIds: [of.leak],
      method: 'soap',
      instrumentId: of.detector,
      gas: 'nitrogen',
      start: psig('300'),
      end: psig('300'),
      result: 'pass',
    }),
    'record-vacuum': () => ({
      ...on,
      readings: [
        { minutes: 0, vacuum: { value: '420', unit: 'micron' } },
        { minutes: 10, vacuum: { value: '480', unit: 'micron' } },
      ],
      gaugeId: scale,
      result: 'pass',
    }),
    'record-inspection': () => ({
      ...on,
      allPartsSeen: true,
      inaccessible: [],
      methods: ['soap'],
      result: 'leak-found',
      leakPointIds: [of.leak],
    }),
    'state-normal-operation': () => ({ ...on, runs: true }),
    'finish-visit': () => ({ visitId: onSite }),
    // One that has not come yet is taken back before it does.
    'withdraw-command': () => ({ commandId: newId() }),
  };
}

export const bodiesOf = (given: Given): Bodies => ({
  ...desk(given),
  ...house(given),
  ...keeper(given),
  ...manager(given),
  ...gas(given),
  ...recalls(given),
  ...field(given),
});
