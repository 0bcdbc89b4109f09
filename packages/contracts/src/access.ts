/** Who may do what. One table: the api's guard, the screens and the tests read it. */
import * as z from 'zod';

export const ROLES = ['owner', 'manager', 'dispatcher', 'warehouse', 'technician', 'auditor'] as const;
export const Role = z.enum(ROLES, { error: 'Role: choose one from the list.' });
export type Role = (typeof ROLES)[number];
/** A role in a sentence: on the page behind an invitation and in its mail. */
export const ROLE_WORDS: Readonly<Record<Role, string>> = {
  owner: 'an owner',
  manager: 'a manager',
  dispatcher: 'a dispatcher',
  warehouse: 'a warehouse keeper',
  technician: 'a technician',
  auditor: 'an auditor, who may read everything and change nothing',
};

export const PERMISSIONS = [
  'books.read',
  'call.take',
  'visit.place',
  'visit.record',
  'cylinder.register',
  'cylinder.handle',
  'instrument.register',
  'location.register',
  'people.manage',
  'settings.change',
  'attention.settle',
  'notice.tick',
  'import.read',
  'import.run',
  'sums.ask',
  'costs.read',
  'price.set',
  'gas.bill',
  'replacement.plan',
  'leave',
] as const;
export type Permission = (typeof PERMISSIONS)[number];

const EVERYTHING = PERMISSIONS;
/** The auditor reads the books and the money and changes nothing; what gas costs is no business of who charges it. */
export const MAY: Readonly<Record<Role, readonly Permission[]>> = {
  owner: EVERYTHING,
  // The whole of a firm in one file is its owner's to take along.
  manager: EVERYTHING.filter((permission) => permission !== 'leave'),
  dispatcher: ['books.read', 'call.take', 'visit.place', 'attention.settle', 'notice.tick', 'sums.ask'],
  warehouse: [
    'books.read',
    'cylinder.register',
    'cylinder.handle',
    'instrument.register',
    'location.register',
    'attention.settle',
    'notice.tick',
    'sums.ask',
  ],
  technician: [
    'books.read',
    'visit.record',
    'cylinder.register',
    'cylinder.handle',
    'instrument.register',
    'notice.tick',
    'sums.ask',
  ],
  auditor: ['books.read', 'import.read', 'sums.ask', 'costs.read'],
};
/** What a key may act as; nobody hands an owner's rights to a program. */
export const KEY_ROLES = ['auditor', 'technician', 'warehouse', 'dispatcher', 'manager'] as const satisfies Role[];
export type KeyRole = (typeof KEY_ROLES)[number];
/** A program never lets people in or makes keys, whatever it acts as: a key that leaked would outlive its end. */
export const mayByKey = (role: Role, permission: Permission): boolean =>
  permission !== 'people.manage' && MAY[role].includes(permission);
export const may = (role: Role, permission: Permission): boolean => MAY[role].includes(permission);
