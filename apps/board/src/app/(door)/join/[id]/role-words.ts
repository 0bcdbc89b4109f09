const WORDS: Readonly<Record<string, string>> = {
  owner: 'an owner',
  manager: 'a manager',
  dispatcher: 'a dispatcher',
  warehouse: 'a warehouse keeper',
  technician: 'a technician',
  auditor: 'an auditor, who may read everything and change nothing',
};

/** A role in a sentence; one we do not know is shown as it is. */
export const roleWords = (role: string): string => WORDS[role] ?? role;
