/** Before the first visit: papers, places, instruments, prices, and the recovery cylinders in the store. */
import { DRIVERS, emailOf, TECHNICIANS } from './names.ts';
import type { Driver } from './names.ts';
import type { Unit } from './fleet.ts';
import { delivery, registration } from './stock.ts';
import { Page } from './studio.ts';
import type { Studio } from './studio.ts';
import type { Task } from './steps.ts';

const FIRST_DAY = -1095;
const HEIGHT_M = 1580;
const CALIBRATED = -200;
/** The small demo has D-6, S-1 and Van 1. */
const FIRST_TAG = 10;

/** Per pound: what the firm pays and what the customer pays. Figures of our own, no market's. */
const PRICES: readonly (readonly [gas: string, offset: number, purchase: string, sale: string])[] = [
  ['R-134a', FIRST_DAY, '8.90', '20.00'],
  ['R-404A', FIRST_DAY, '12.60', '28.50'],
  ['R-448A', FIRST_DAY, '11.80', '26.00'],
  ['R-449A', FIRST_DAY, '11.40', '25.50'],
  ['R-507A', FIRST_DAY, '12.90', '29.00'],
  ['R-507A', -400, '16.80', '37.00'],
  ['R-410A', FIRST_DAY, '10.20', '24.00'],
  ['R-410A', -400, '13.60', '31.00'],
  ['R-407C', FIRST_DAY, '10.90', '25.00'],
  ['R-407C', -400, '12.40', '28.50'],
  ['R-22', FIRST_DAY, '24.00', '52.00'],
  ['R-22', -400, '31.50', '68.00'],
  ['R-454B', FIRST_DAY, '14.70', '33.00'],
  ['R-513A', FIRST_DAY, '15.20', '34.00'],
];

function people(page: Page): void {
  const { moments, people: ids } = page.studio;
  for (const { name, certificate: type } of TECHNICIANS) {
    const certificates = [
      {
        id: page.newId(),
        scheme: 'us-608' as const,
        type,
        registeredOn: moments.day(-page.studio.chance.int(1400, 4200)),
      },
    ];
    page.wait(3).say('manager', 'register-person', { personId: ids[name], name, email: emailOf(name), certificates });
  }
}

function places(page: Page): void {
  const { vans, people: ids } = page.studio;
  DRIVERS.forEach((driver, at) => {
    if (at === 0) return;
    page.wait(2).say('warehouse', 'register-location', {
      locationId: vans[driver],
      kind: 'van',
      name: `Van ${at + 1}`,
      elevationM: HEIGHT_M,
      keeperId: ids[driver],
    });
  });
}

function instruments(page: Page): void {
  const { detectors, people: ids, moments } = page.studio;
  const scales: string[] = [];
  const carried = (driver: Driver) => ({ carrierId: ids[driver] });
  DRIVERS.forEach((driver, at) => {
    if (at > 0)
      page.wait(2).say('warehouse', 'register-instrument', {
        instrumentId: detectors[driver],
        kind: 'detector',
        tag: `D-${FIRST_TAG + at}`,
        senseGramsPerYear: 5,
        ...carried(driver),
      });
    const scale = page.newId();
    page.wait(2).say('warehouse', 'register-instrument', {
      instrumentId: scale,
      kind: 'scale',
      tag: `S-${FIRST_TAG + at}`,
      ...carried(driver),
    });
    scales.push(scale);
  });
  scales.forEach((instrumentId, at) => {
    page.go(CALIBRATED - at * 9, 15 * 60).say('warehouse', 'record-calibration', {
      instrumentId,
      calibratedOn: moments.day(CALIBRATED - at * 9),
      by: 'Sorrel Weighing',
      result: 'pass',
      nextOn: moments.day(CALIBRATED - at * 9 + 365),
    });
  });
}

function stock(page: Page): void {
  const recovery = page.studio.stock.all.filter(({ kind }) => kind === 'recovery');
  const { store } = page.studio.known;
  for (const cylinder of recovery) {
    page.wait(1).say('warehouse', 'register-cylinder', registration(cylinder));
    cylinder.place = store;
  }
  page.wait(5).say('warehouse', 'hand-over', {
    cylinders: recovery.map(({ id: cylinderId }) => ({ cylinderId, fromId: null })),
    toId: store,
  });
}

function prices(page: Page): void {
  const { moments } = page.studio;
  for (const [refrigerant, offset, purchase, sale] of PRICES.toSorted((a, b) => a[1] - b[1])) {
    page.go(offset + 1, 8 * 60 + 20);
    const of = { priceId: page.newId(), refrigerant, fromOn: moments.day(offset), unit: 'lb' as const };
    page.say('manager', 'set-price', { ...of, purchase, sale });
  }
}

/** Told before all else. */
export function openHouse(studio: Studio): Task {
  const page = new Page(studio, FIRST_DAY, 8 * 60);
  people(page);
  places(page);
  stock(page);
  instruments(page);
  prices(page);
  return page.task('house');
}

/** What was bought and not touched yet. */
export function lateDeliveries(studio: Studio): Task {
  const page = new Page(studio, studio.workdayBefore(0, 12), 10 * 60);
  for (const cylinder of studio.stock.all) {
    if (cylinder.isHere || cylinder.kind === 'recovery') continue;
    page.wait(1).say('warehouse', 'record-delivery', delivery(cylinder, studio.known.store));
    cylinder.isHere = true;
  }
  return page.task('late deliveries');
}

/** Older visits are billed, and two circuits are to be replaced. */
export function closing(studio: Studio, unit: (tag: string) => Unit): Task {
  const { moments } = studio;
  const page = new Page(studio, -20, 9 * 60);
  page.steps.push({ kind: 'billing', at: page.at, upToDay: moments.day(-30), series: 'HV' });
  page.go(-18, 10 * 60).say('manager', 'plan-replacement', {
    planId: page.newId(),
    circuitId: unit('1012').circuitId,
    reason: 'R-22 at every price, and a leak nobody finds: new unit in spring.',
    byOn: moments.day(160),
  });
  page.go(-15, 11 * 60).say('manager', 'plan-replacement', {
    planId: page.newId(),
    circuitId: unit('1022').circuitId,
    reason: 'Coil corroded through; dearer to find than to replace.',
    byOn: moments.day(75),
  });
  return page.task('closing');
}
