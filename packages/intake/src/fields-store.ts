/** Columns of lists of cylinders and of people. */
import type { Field } from './field.ts';

export const CYLINDERS: readonly Field[] = [
  {
    id: 'serial',
    label: 'Serial',
    required: true,
    hint: 'As stamped on the shoulder.',
    names: ['serial number', 'serial no', 'cylinder', 'cylinder serial', 'cylinder number', 'tank', 'tank number'],
  },
  { id: 'label', label: 'Label', hint: 'Your own number for it.', names: ['own number', 'tag', 'barcode', 'id'] },
  {
    id: 'kind',
    label: 'Kind of cylinder',
    required: true,
    hint: 'Disposable, refillable or recovery.',
    names: ['kind', 'type', 'cylinder type', 'tank type'],
  },
  {
    id: 'specification',
    label: 'Specification',
    required: true,
    hint: 'As stamped, as DOT-4BA400.',
    names: ['spec', 'dot spec', 'dot specification', 'stamp'],
  },
  {
    id: 'waterCapacity',
    label: 'Water capacity',
    required: true,
    hint: 'As stamped after WC, with or without its unit.',
    names: ['wc', 'capacity', 'water cap'],
  },
  {
    id: 'tare',
    label: 'Tare',
    required: true,
    hint: 'As stamped after TW.',
    names: ['tw', 'tare weight', 'empty weight'],
  },
  {
    id: 'servicePressure',
    label: 'Service pressure, psig',
    hint: 'Where it is not in the specification.',
    names: ['service pressure', 'pressure rating', 'psig'],
  },
  {
    id: 'madeMonth',
    label: 'Made',
    hint: 'Year and month, as 2021-03.',
    names: ['made on', 'manufactured', 'manufacture date', 'born'],
  },
  {
    id: 'testedMonth',
    label: 'Last test',
    hint: 'Year and month, as 2021-03.',
    names: ['tested', 'test date', 'retest', 'retest date', 'hydro test', 'last hydro', 'requalified'],
  },
  {
    id: 'owner',
    label: 'Owner',
    hint: 'The customer whose it is; yours where empty.',
    names: ['owned by', 'customer', 'property of'],
  },
  {
    id: 'refrigerant',
    label: 'Refrigerant',
    hint: 'What is in it, as R-448A.',
    names: ['gas', 'contents', 'refrigerant type', 'holds'],
  },
  {
    id: 'gasState',
    label: 'State of the gas',
    hint: 'New, recovered, recycled or reclaimed.',
    names: ['state', 'condition', 'gas state', 'status'],
  },
  {
    id: 'gross',
    label: 'Gross weight',
    hint: 'What the scale shows now, cylinder and gas.',
    names: ['gross', 'weight', 'current weight', 'scale weight', 'opening weight'],
  },
];

export const PEOPLE: readonly Field[] = [
  {
    id: 'name',
    label: 'Name',
    required: true,
    hint: 'First and last name.',
    names: ['technician', 'employee', 'person', 'full name'],
  },
  {
    id: 'email',
    label: 'E-mail',
    hint: 'Whoever is invited under it becomes this person.',
    names: ['mail', 'email address'],
  },
  {
    id: 'type',
    label: 'Certificate',
    hint: 'I, II, III, universal or registered apprentice.',
    names: [
      'certificate type',
      'certification',
      'epa 608',
      'section 608',
      '608 type',
      'cert type',
      'epa certification',
    ],
  },
  {
    id: 'registeredOn',
    label: 'Registered on',
    hint: 'A day.',
    names: ['certified on', 'issued', 'issue date', 'certification date'],
  },
  {
    id: 'endsOn',
    label: 'Ends on',
    hint: 'A day, where it ends.',
    names: ['expires', 'expiry', 'expiration date', 'valid until'],
  },
];
