import type { KeyRole } from '@ullage/contracts';

export interface KeyItem {
  readonly id: string;
  readonly name: string;
  readonly role: KeyRole;
  readonly ending: string;
  readonly madeBy: string;
  readonly madeAt: string;
  readonly endsAt: string;
  readonly usedAt: string | null;
  readonly state: 'in-use' | 'revoked' | 'ended' | 'maker-gone';
}
export const KEY_ROLE_WORDS: Readonly<Record<KeyRole, string>> = {
  auditor: 'Read everything, change nothing',
  technician: 'What a technician may',
  warehouse: 'What a warehouse keeper may',
  dispatcher: 'What a dispatcher may',
  manager: 'What a manager may, but let people in',
};
