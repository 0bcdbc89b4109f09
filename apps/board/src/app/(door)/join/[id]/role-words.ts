import type { Role } from '@ullage/contracts';

/** A role in a sentence. */
export const ROLE_WORDS: Readonly<Record<Role, string>> = {
  owner: 'an owner',
  manager: 'a manager',
  dispatcher: 'a dispatcher',
  warehouse: 'a warehouse keeper',
  technician: 'a technician',
  auditor: 'an auditor, who may read everything and change nothing',
};
