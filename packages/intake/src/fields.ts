/** What a file may hold, column by column, and by which names a column is known. */
import type { ImportKind } from '@ullage/contracts';
import type { Field } from './field.ts';
import { CYLINDERS, PEOPLE } from './fields-store.ts';

export type SheetKind = ImportKind;

const CUSTOMER: Field = {
  id: 'customer',
  label: 'Customer',
  hint: 'Who owns or operates the equipment.',
  names: ['client', 'account', 'owner', 'company', 'customer name', 'bill to'],
};
const TAG: Field = {
  id: 'tag',
  label: 'Unit',
  hint: 'Its tag, as 0305 or RTU-2.',
  names: ['unit tag', 'tag', 'equipment', 'equipment id', 'asset', 'asset tag', 'appliance', 'system', 'unit number'],
};
const LETTER: Field = {
  id: 'letter',
  label: 'Circuit',
  hint: 'Its letter; A where the file says none.',
  names: ['circuit letter', 'circuit number', 'refrigerant circuit', 'ckt'],
};
const BY: Field = {
  id: 'by',
  label: 'Added by',
  hint: 'Us, the name of one of our people, or of another firm.',
  names: ['by', 'who', 'technician', 'tech', 'done by', 'performed by', 'contractor'],
};

const EQUIPMENT: readonly Field[] = [
  { ...CUSTOMER, required: true },
  {
    id: 'address',
    label: 'Site address',
    hint: 'Where the equipment stands.',
    names: ['address', 'service address', 'location address', 'street', 'site'],
  },
  {
    id: 'siteName',
    label: 'Site name',
    hint: 'Where it has one beside its address.',
    names: ['store', 'building', 'location', 'location name', 'premises', 'branch', 'facility'],
  },
  { id: 'region', label: 'State', hint: 'As CO.', names: ['province', 'region', 'st'] },
  { id: 'timeZone', label: 'Time zone', hint: 'As America/Denver.', names: ['timezone', 'tz'] },
  {
    id: 'elevation',
    label: 'Elevation, m',
    hint: 'Metres above sea level: what a gauge shows depends on it.',
    names: ['elevation', 'altitude', 'height above sea level', 'metres above sea level', 'elevation m'],
  },
  TAG,
  {
    id: 'description',
    label: 'What it is',
    hint: 'As dairy rack.',
    names: ['description', 'unit description', 'equipment description', 'type of unit', 'make model', 'notes'],
  },
  LETTER,
  {
    id: 'refrigerant',
    label: 'Refrigerant',
    hint: 'By its number, as R-448A.',
    names: ['gas', 'refrigerant type', 'ref type', 'type of refrigerant', 'freon type'],
  },
  {
    id: 'fullCharge',
    label: 'Full charge',
    hint: 'The mass when correctly charged, with or without its unit.',
    names: [
      'charge',
      'normal charge',
      'factory charge',
      'system charge',
      'charge size',
      'full charge lb',
      'total charge',
    ],
  },
  {
    id: 'fullChargeUnit',
    label: 'Full charge, unit',
    hint: 'Where it stands in a column of its own.',
    names: ['charge unit', 'unit of charge', 'unit of measure', 'uom', 'full charge unit'],
  },
  {
    id: 'method',
    label: 'Full charge from',
    hint: 'Manufacturer, calculated, measured or range.',
    names: ['method', 'charge method', 'full charge method', 'charge source', 'determined by', 'how determined'],
  },
  {
    id: 'use',
    label: 'Use',
    hint: 'Comfort cooling, commercial refrigeration, industrial process refrigeration, transport or other.',
    names: ['application', 'use category', 'sector', 'end use', 'category'],
  },
  {
    id: 'equipment',
    label: 'Kind of equipment',
    hint: 'Chiller, rooftop, split, variable flow, rack or other.',
    names: ['equipment kind', 'equipment type', 'system type', 'unit type', 'type'],
  },
  {
    id: 'installedOn',
    label: 'Installed on',
    hint: 'A day.',
    names: ['installed', 'install date', 'installation date', 'date installed', 'commissioned', 'start up date'],
  },
  {
    id: 'lastOn',
    label: 'Last addition on',
    hint: 'The day refrigerant was last added.',
    names: [
      'last addition',
      'last added',
      'last charge date',
      'last top off',
      'date last charged',
      'last service date',
    ],
  },
  {
    id: 'lastMass',
    label: 'Last addition, mass',
    hint: 'How much; empty where nobody knows.',
    names: ['last added amount', 'last charge amount', 'last addition amount', 'last amount', 'last addition lb'],
  },
];

const ADDITIONS: readonly Field[] = [
  CUSTOMER,
  {
    id: 'site',
    label: 'Site',
    hint: 'Its name or address: needed where two units bear one tag.',
    names: ['site name', 'site address', 'address', 'location', 'store', 'building'],
  },
  { ...TAG, required: true },
  LETTER,
  {
    id: 'onDay',
    label: 'Day',
    required: true,
    hint: 'When it was added.',
    names: ['date', 'date added', 'service date', 'added on', 'addition date', 'on'],
  },
  {
    id: 'mass',
    label: 'Mass added',
    required: true,
    hint: 'How much, with or without its unit; empty where nobody knows.',
    names: [
      'amount',
      'added',
      'amount added',
      'refrigerant added',
      'quantity',
      'qty',
      'weight',
      'mass',
      'lb added',
      'pounds',
    ],
  },
  {
    id: 'massUnit',
    label: 'Mass, unit',
    hint: 'Where it stands in a column of its own.',
    names: ['uom', 'unit of measure', 'weight unit', 'mass unit', 'amount unit'],
  },
  BY,
];

export const FIELDS: Readonly<Record<SheetKind, readonly Field[]>> = {
  equipment: EQUIPMENT,
  additions: ADDITIONS,
  cylinders: CYLINDERS,
  people: PEOPLE,
};
