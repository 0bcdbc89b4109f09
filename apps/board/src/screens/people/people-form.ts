/** The people screen's commands and words. */
import type { CommandBody, PeopleView } from '@ullage/contracts';
import { MAY, may, type Role } from '@ullage/contracts';
import { dayWords } from '../../lib/local-time.ts';
import type { FieldProblem } from '../../lib/problem.ts';

export type Member = PeopleView['items'][number];
type Certificate = CommandBody<'register-person'>['certificates'][number];

export const ROLE_NAMES: Readonly<Record<Role, string>> = {
  owner: 'Owner',
  manager: 'Manager',
  dispatcher: 'Dispatcher',
  warehouse: 'Warehouse keeper',
  technician: 'Technician',
  auditor: 'Auditor',
};
const ROLE_ORDER = Object.keys(MAY) as Role[];

/** Only an owner makes or changes an owner. */
export const rolesFor = (mine: Role): { value: Role; text: string }[] =>
  ROLE_ORDER.filter((role) => mine === 'owner' || role !== 'owner').map((role) => ({
    value: role,
    text: ROLE_NAMES[role],
  }));
export function mayChange(mine: { readonly role: Role; readonly personId: string }, member: Member): boolean {
  if (!may(mine.role, 'people.manage') || !member.signsIn || member.id === mine.personId) return false;
  return mine.role === 'owner' || member.role !== 'owner';
}

export const CERTIFICATE_OPTIONS = [
  { value: 'universal', text: 'Universal' },
  { value: 'I', text: 'Type I, small appliances' },
  { value: 'II', text: 'Type II, high pressure' },
  { value: 'III', text: 'Type III, low pressure' },
  { value: 'apprentice', text: 'Registered apprentice' },
] as const satisfies readonly { value: Certificate['type']; text: string }[];

export function certificateWords({ text, registeredOn, endsOn }: Member['certificates'][number]): string {
  const from = registeredOn === null ? '' : ` from ${dayWords(registeredOn)}`;
  const to = endsOn === null ? '' : ` to ${dayWords(endsOn)}`;
  return `${text}${from}${to}`;
}

export interface PersonForm {
  readonly personId: string;
  readonly certificateId: string;
  readonly name: string;
  readonly email: string;
  /** Empty: none. */
  readonly type: string;
  readonly registeredOn: string;
  readonly endsOn: string;
}
const EMAIL = /^[^\s@]+@[^\s@]+\.[^\s@]+$/;

export function personGaps(form: PersonForm): FieldProblem[] {
  const gaps: FieldProblem[] = [];
  const say = (field: string, detail: string): number => gaps.push({ pointer: `#/${field}`, detail });
  if (form.name.trim() === '') say('name', 'Name: give it, as on the certificate.');
  if (form.email.trim() !== '' && !EMAIL.test(form.email.trim()))
    say('email', 'E-mail: give an address, as kim@firm.example.');
  // An apprenticeship without its registration cannot be judged by the law's two years (40 CFR 82.161(a)(1)).
  if (form.type === 'apprentice' && form.registeredOn === '')
    say('registeredOn', 'Registered on: the apprenticeship needs its day.');
  if (form.registeredOn !== '' && form.endsOn !== '' && form.endsOn < form.registeredOn)
    say('endsOn', 'Ends on: it lies before the registration.');
  return gaps;
}

export function personBody(form: PersonForm): CommandBody<'register-person'> {
  const option = CERTIFICATE_OPTIONS.find(({ value }) => value === form.type);
  const email = form.email.trim();
  return {
    personId: form.personId,
    name: form.name.trim(),
    ...(email === '' ? {} : { email }),
    certificates: option
      ? [
          {
            id: form.certificateId,
            scheme: 'us-608',
            type: option.value,
            ...(form.registeredOn === '' ? {} : { registeredOn: form.registeredOn }),
            ...(form.endsOn === '' ? {} : { endsOn: form.endsOn }),
          },
        ]
      : [],
  };
}

const LABELS: Readonly<Record<string, string>> = {
  name: 'Name',
  email: 'E-mail',
  role: 'Role',
  type: 'Certificate',
  registeredOn: 'Registered on',
  endsOn: 'Ends on',
};
/** The field of a dialog that a pointer belongs to. */
export function peopleField(pointer: string): { id: string; label: string } | undefined {
  const name =
    pointer
      .replace(/^#?\/(body\/)?/, '')
      .replace(/^certificates\/\d+\//, '')
      .split('/')[0] ?? '';
  const label = LABELS[name];
  return label === undefined ? undefined : { id: `people-${name}`, label };
}
