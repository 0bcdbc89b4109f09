/** What a row of equipment says, cell by cell, before it is asked what is there already. */
import type { CommandBody, FULL_CHARGE_METHODS } from '@ullage/contracts';
import { add, divide, exactGrams, massText, rational } from '@ullage/units';
import type { EnteredMass } from '@ullage/units';
import { dayCell, figureOf, short } from './cells.ts';
import type { Cells, Ground } from './judge.ts';
import { listOf, pick, sayRefrigerant } from './say-choice.ts';
import { sayMass } from './say-mass.ts';

type Body = CommandBody<'register-equipment'>;
type NewCircuit = NonNullable<NonNullable<Body['circuit']>['new']>;
type Method = (typeof FULL_CHARGE_METHODS)[number];

const USES: Readonly<Record<NewCircuit['use'], readonly string[]>> = {
  'commercial-refrigeration': ['commercial', 'retail food', 'supermarket', 'refrigeration'],
  'industrial-process-refrigeration': ['industrial process', 'industrial', 'process', 'ipr'],
  'comfort-cooling': ['comfort', 'hvac', 'ac', 'a/c', 'air conditioning', 'cooling'],
  'refrigerated-transport': ['transport'],
  other: [],
};
const METHODS: Readonly<Record<Method, readonly string[]>> = {
  manufacturer: ['maker', 'nameplate', 'data plate', 'plate', 'oem', 'manufacturer determined'],
  calculated: ['calculation', 'calc', 'calculations'],
  measured: ['weighed', 'measurement', 'weighed in', 'measurements'],
  range: ['established range'],
};
const EQUIPMENT: Readonly<Record<NonNullable<NewCircuit['equipment']>, readonly string[]>> = {
  chiller: [],
  rooftop: ['rtu', 'roof top', 'rooftop unit', 'package unit'],
  split: ['split system', 'mini split'],
  'variable-flow': ['vrf', 'variable refrigerant flow'],
  rack: ['rack system', 'parallel rack'],
  other: [],
};

interface SiteRest {
  readonly name: string | undefined;
  readonly region?: string | undefined;
  readonly timeZone: string;
  readonly elevationM: number | undefined;
}
/** What the cells say, before it is asked what is there already. */
export interface Said {
  readonly customer: string;
  readonly site: { readonly address: string; readonly rest: SiteRest } | undefined;
  readonly unit: { readonly tag: string; readonly description: string | undefined } | undefined;
  readonly circuit: (Partial<NewCircuit> & { readonly letter: string }) | undefined;
  readonly last: { readonly onDay: string; readonly mass: EnteredMass | null } | undefined;
}

const CIRCUIT_FIELDS = ['letter', 'refrigerant', 'fullCharge', 'method', 'use', 'equipment', 'installedOn', 'lastOn'];

export function say(cells: Cells, ground: Ground): Said {
  const tag = cells.get('tag');
  const needsSite = tag !== undefined || cells.get('siteName') !== undefined || cells.get('address') !== undefined;
  if (tag === undefined && CIRCUIT_FIELDS.some((id) => cells.get(id) !== undefined))
    cells.fault('tag', 'missing; give the tag of the unit.');
  const customer = cells.get('customer') ?? cells.fault('customer', 'missing; say whose equipment it is.');
  return {
    customer: customer ?? '',
    site: needsSite ? saySite(cells, ground) : undefined,
    unit: tag === undefined ? undefined : { tag, description: cells.get('description') },
    circuit: tag === undefined ? undefined : sayCircuit(cells, ground),
    last: sayLast(cells, ground),
  };
}

function saySite(cells: Cells, { settings }: Ground): Said['site'] {
  const address = cells.get('address') ?? cells.get('siteName');
  if (address === undefined) return cells.fault('address', 'missing; say where the unit stands.');
  const name = cells.get('siteName');
  return {
    address,
    rest: {
      name,
      region: cells.get('region'),
      timeZone: cells.get('timeZone') ?? settings.timeZone,
      elevationM: elevationOf(cells, settings),
    },
  };
}

/** Undefined where nobody says; it matters only for a site that is new. */
function elevationOf(cells: Cells, settings: Ground['settings']): number | undefined {
  const text = cells.get('elevation');
  if (text === undefined) return settings.elevationM ?? undefined;
  const figure = figureOf(text.replace(/\s*m$/i, ''), settings.decimal);
  if (figure === undefined) return cells.fault('elevation', `“${short(text)}” is no height; give metres, as 1600.`);
  return Number(figure);
}

function sayCircuit(cells: Cells, ground: Ground): Said['circuit'] {
  const { settings } = ground;
  const use = pick(cells, 'use', USES) ?? settings.use ?? undefined;
  const method = pick(cells, 'method', METHODS) ?? settings.method ?? undefined;
  const installed = cells.get('installedOn');
  return {
    letter: cells.get('letter') ?? 'A',
    refrigerant: sayRefrigerant(cells, ground),
    use,
    equipment: pick(cells, 'equipment', EQUIPMENT),
    installedOn: installed === undefined ? undefined : cells.read('installedOn', dayCell(installed, settings.days)),
    fullCharge: sayFullCharge(cells, method, settings),
  };
}

/** Of a range both ends stand in the cell, as `200 to 240 lb`; what counts is its midpoint (40 CFR 82.152, 84.102). */
function sayFullCharge(
  cells: Cells,
  method: Method | undefined,
  settings: Ground['settings'],
): NewCircuit['fullCharge'] | undefined {
  const column = { id: 'fullCharge', unitId: 'fullChargeUnit', settings };
  const ends = /^(.+?)\s*(?:to|–|\.\.)\s*(.+)$/.exec(cells.get('fullCharge') ?? '');
  if (method !== 'range' || !ends) {
    const mass = sayMass(cells, column);
    return mass && method && { mass, method };
  }
  const high = sayMass(cells, { ...column, text: ends[2] });
  const low = high && sayMass(cells, { ...column, text: ends[1], unit: high.unit });
  if (!low) return undefined;
  const middle = divide(add(exactGrams(low), exactGrams(high)), rational(2n));
  return { mass: { value: massText(middle, high.unit, 20), unit: high.unit }, method, low, high };
}

function sayLast(cells: Cells, { settings, today }: Ground): Said['last'] {
  const text = cells.get('lastOn');
  const mass = sayMass(cells, { id: 'lastMass', settings });
  if (text === undefined) {
    if (cells.get('lastMass') !== undefined) cells.fault('lastOn', 'missing; say when that mass was added.');
    return undefined;
  }
  const onDay = cells.read('lastOn', dayCell(text, settings.days));
  if (onDay === undefined) return undefined;
  if (onDay > today) return cells.fault('lastOn', `${onDay} lies in the future; give a past day.`);
  return { onDay, mass: mass ?? null };
}

/** What a new circuit must say; one that is there already need not say it again. */
export function assertWhole(cells: Cells, said: Said): void {
  const { circuit } = said;
  if (!circuit) return;
  if (circuit.refrigerant === undefined) cells.fault('refrigerant', 'missing; give its number, as R-448A.');
  if (circuit.use === undefined) cells.fault('use', `missing; give ${listOf(USES)}.`);
  if (circuit.fullCharge === undefined && cells.get('fullCharge') === undefined)
    cells.fault('fullCharge', 'missing; give the mass when correctly charged.');
  else if (circuit.fullCharge === undefined) cells.fault('method', `missing; give ${listOf(METHODS)}.`);
}
