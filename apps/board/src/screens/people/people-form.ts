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

export type MemberCertificate = Member['certificates'][number];
/** `Type II from 1 Jun 2025 to 7 May 2026`; of one that is over, the day it ended is what counts. */
export function certificateWords({ text, registeredOn, endsOn, standing }: MemberCertificate): string {
  if (standing === 'ended' && endsOn !== null) return `${text}, ended ${dayWords(endsOn)}`;
  const from = registeredOn === null ? '' : ` from ${dayWords(registeredOn)}`;
  const to = endsOn === null ? '' : ` to ${dayWords(endsOn)}`;
  return `${text}${from}${to}`;
}

/** A certificate as it stands in a form. */
export interface PaperForm {
  /** Empty: none. */
  readonly type: string;
  readonly registeredOn: string;
  /** The last day on which it holds. */
  readonly endsOn: string;
}
export interface PersonForm extends PaperForm {
  readonly personId: string;
  readonly certificateId: string;
  readonly name: string;
  readonly email: string;
}
const EMAIL = /^[^\s@]+@[^\s@]+\.[^\s@]+$/;
const gap = (field: string, detail: string): FieldProblem => ({ pointer: `#/${field}`, detail });

export function paperGaps(form: PaperForm): FieldProblem[] {
  const gaps: FieldProblem[] = [];
  // An apprenticeship without its registration cannot be judged by the law's two years (40 CFR 82.161(a)(1)).
  if (form.type === 'apprentice' && form.registeredOn === '')
    gaps.push(gap('registeredOn', 'Registered on: the apprenticeship needs its day.'));
  if (form.registeredOn !== '' && form.endsOn !== '' && form.endsOn < form.registeredOn)
    gaps.push(gap('endsOn', 'Ends on: it lies before the registration.'));
  return gaps;
}
export function personGaps(form: PersonForm): FieldProblem[] {
  const gaps: FieldProblem[] = [];
  if (form.name.trim() === '') gaps.push(gap('name', 'Name: give it, as on the certificate.'));
  if (form.email.trim() !== '' && !EMAIL.test(form.email.trim()))
    gaps.push(gap('email', 'E-mail: give an address, as kim@firm.example.'));
  return [...gaps, ...paperGaps(form)];
}
const LEAST_WHY = 3;
export const whyGaps = (why: string): FieldProblem[] =>
  why.trim().length < LEAST_WHY ? [gap('why', 'Why: one sentence is enough.')] : [];

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
export function correctBody(
  of: Pick<MemberCertificate, 'id' | 'version' | 'type'>,
  form: PaperForm & { readonly why: string },
): CommandBody<'correct-certificate'> {
  return {
    certificateId: of.id,
    version: of.version,
    type: CERTIFICATE_OPTIONS.find(({ value }) => value === form.type)?.value ?? of.type,
    registeredOn: form.registeredOn || null,
    endsOn: form.endsOn || null,
    why: form.why.trim(),
  };
}

const LABELS: Readonly<Record<string, string>> = {
  name: 'Name',
  email: 'E-mail',
  role: 'Role',
  type: 'Certificate',
  registeredOn: 'Registered on',
  endsOn: 'Ends on',
  fromDay: 'Not valid from',
  why: 'Why',
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
/** Message by field id, the first one winning. */
export function peopleErrors(errors: readonly FieldProblem[]): Readonly<Record<string, string>> {
  const by: Record<string, string> = {};
  for (const { pointer, detail } of errors) by[peopleField(pointer)?.id ?? ''] ??= detail;
  return by;
}

/** What becomes of the visits that somebody is placed on; empty where there are none. */
export function placedWords({ name, placedAhead }: Pick<Member, 'name' | 'placedAhead'>): string {
  if (placedAhead === 0) return '';
  return placedAhead === 1
    ? `One visit from now on is placed on ${name} and stays so until somebody moves it.`
    : `${placedAhead} visits from now on are placed on ${name} and stay so until somebody moves them.`;
}
